"""The command that finds the amounts which reach the targets."""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterator

from winebench.cli.arguments import CommandError
from winebench.cli.outputs import other_project
from winebench.cli.projects import read, write
from winebench.cli.show import print_json, ranged, wrapped
from winebench.model.project import Project
from winebench.plan.figures import with_country
from winebench.plan.solve import Answer, Ask, SolveError, Target, usual_values
from winebench.plan.solve import solve as solved
from winebench.plan.solve.answer import solve_as_usual
from winebench.plan.solve.shapes import NAMES
from winebench.plan.solve.targets import known_target, read_value, value_text
from winebench.units import UnitsError

_BETWEEN = re.compile(r",(?!\d)")


def solve(arguments: argparse.Namespace) -> int:
    """Show what to change and what then reads; 0 where it is met, 1 where two targets fight."""
    project = read(arguments.file)
    try:
        names = tuple(name.strip() for name in arguments.change.split(",") if name.strip())
        if arguments.hold.strip():
            ask = Ask(_held(project, arguments.hold), names)
            found = solved(project, ask)
        else:
            ask, found = solve_as_usual(project, names)
    except (SolveError, UnitsError) as problem:
        raise CommandError(f'"{arguments.file}": {problem}') from problem
    if arguments.output:
        other_project(arguments.output, arguments.file)
    into = arguments.output or (arguments.file if arguments.write else None)
    if into is not None and found.met:
        write(into, found.edit.apply(project) if found.edit else project)
    if arguments.json:
        print_json(_as_json(ask, found))
        return 0 if found.met else 1
    print("\n".join(_lines(project, ask, found)))
    if not found.met:
        print("Nothing was written.")
    elif into is None:
        print("Nothing was written; --write keeps it, -o FILE writes it to another file.")
    else:
        print(f'Wrote "{into}".')
    return 0 if found.met else 1


def _held(project: Project, hold: str) -> dict[Target, float]:
    """Return what is held as typed; a target without a value is held as usual."""
    usual = usual_values(project)
    held: dict[Target, float] = {}
    # A comma before a digit is a decimal one: "gravity=1,090".
    for item in (part.strip() for part in _BETWEEN.split(hold) if part.strip()):
        name, equals, text = item.partition("=")
        target = known_target(name.strip())
        if target in held:
            raise SolveError(f"The {NAMES[target]} is held twice; say it once.")
        held[target] = read_value(project, target, text) if equals else usual[target]
    return held


def _as_json(ask: Ask, found: Answer) -> dict[str, object]:
    return {
        "held": ask.held,
        "may_change": ask.change,
        "met": found.met,
        "why_not": found.why_not,
        "changes": found.changes,
        "figures": found.figures,
        "notes": found.notes,
    }


def _lines(project: Project, ask: Ask, found: Answer) -> Iterator[str]:
    held = ", ".join(f"{key} {value_text(key, value)}" for key, value in ask.held.items())
    yield from wrapped("HOLD ", held)
    if not found.met:
        yield from wrapped("CANNOT BE MET: ", found.why_not)
    if found.changes:
        yield f"WHAT TO CHANGE  as written for {with_country(project.recipe.basis, project.gallon)}"
    for each in found.changes:
        if each.was == each.becomes:
            yield f"  {each.name:30.30} {each.was}, as it is"
            continue
        over = f"; {each.low} to {each.high} over the fruit’s range" if each.low else ""
        batch = f" (the batch: {each.batch})" if each.batch not in ("", each.becomes) else ""
        yield from wrapped(f"  {each.name:30.30} ", f"{each.was} → {each.becomes}{batch}{over}")
    if found.met:
        yield "WHAT THEN READS"
        for figure in found.figures:
            unit = f" {figure.before.text_unit}" if figure.before.value is not None else ""
            yield f"  {figure.name:18} {figure.before.text + unit:14} → {ranged(figure.after)}"
    for note in found.notes:
        yield from wrapped("  ", note)
