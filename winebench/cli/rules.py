"""Commands without a project: one trade rule by itself, or a forecast from readings alone."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from winebench.cli.arguments import CommandError
from winebench.cli.show import print_json
from winebench.trade.gravity import sg_from_brix
from winebench.units import Gravity, Temperature, UnitsError


def work(arguments: argparse.Namespace) -> int:
    """Run one trade rule with its workings, or list them."""
    import winebench.catalog.rules  # noqa: F401 - it declares the rules that rest on the catalog
    from winebench.trade.rules import listing, run_work

    try:
        answer = run_work(arguments.name, arguments.pairs)
    except ValueError as problem:
        raise CommandError(str(problem)) from problem
    if arguments.json:
        print_json(listing() if isinstance(answer, str) else answer)
        return 0
    if isinstance(answer, str):
        print(answer)
        return 0
    one = answer.unit.replace("bottles", "bottle").replace("packets", "packet")
    unit = one if answer.result == "1" else answer.unit
    print(f"{answer.rule} = {answer.result} {unit}".rstrip())
    for figure in answer.figures if len(answer.figures) > 1 else ():
        print(f"    {figure.name}: {figure.value} {figure.unit}".rstrip())
    print(f"  {answer.words}")
    for given in answer.inputs:
        print(f"  {given.name} = {given.value} {given.unit}".rstrip())
    print(f"  Valid: {answer.valid}")
    print(f"  Source: {answer.source}")
    return 0


def forecast(arguments: argparse.Namespace) -> int:
    """Forecast each CSV file of readings."""
    from winebench.forecast import forecast as work_out
    from winebench.forecast import learn
    from winebench.forecast.table import as_json, evidence_from_csv, finished_from_csv

    try:
        og = None if arguments.og is None else _specific(arguments.og)
        room = None if arguments.room is None else Temperature(arguments.room).celsius
        below = tuple(_specific(text) for text in arguments.below)
    except UnitsError as problem:
        raise CommandError(str(problem)) from problem
    try:
        learned = learn(finished_from_csv(_text(path), path.name) for path in arguments.learn_from)
        logs = [
            (str(path), evidence_from_csv(_text(path), path.name, og=og, room_celsius=room))
            for path in arguments.files
        ]
    except ValueError as problem:
        raise CommandError(str(problem)) from problem
    answers = [as_json(path, work_out(evidence, below, learned)) for path, evidence in logs]
    if learned:
        answers = [answer | {"learned": learned.sentence} for answer in answers]
    if arguments.json:
        print_json(answers)
        return 0
    if learned:
        print(learned.sentence)
    for answer in answers:
        print(f"{answer['file']}: {answer['state']}")
        for crossing in answer["crossings"]:
            print(f"  {_crossing_words(crossing)}")
        print(f"  chance of not finishing: {answer['not_finishing']:.0%}")
    return 0


def _specific(text: str) -> float:
    """Return a gravity typed as SG or °Brix, as SG."""
    gravity = Gravity(text)
    return gravity.value if gravity.scale == "SG" else float(sg_from_brix(gravity.value))


def _crossing_words(crossing: dict[str, Any]) -> str:
    """Return when a line is passed; one that may never be has no days, or no last one."""
    early, likely, late = (crossing[key] for key in ("q10_h", "q50_h", "q90_h"))
    line = f"below {crossing['below']:.3f}"
    if likely is None:
        return f"{line} perhaps never"
    until = "perhaps never" if late is None else f"{late / 24:.1f}"
    return f"{line} after {likely / 24:.1f} days ({early / 24:.1f} to {until})"


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig")
    except UnicodeDecodeError as problem:
        raise CommandError(f'"{path}" is not UTF-8 text; save it as CSV in UTF-8') from problem
    except OSError as problem:
        raise CommandError(f'"{path}" cannot be read: {problem.strerror}') from problem
