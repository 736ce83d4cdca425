"""Commands without a project: one trade rule by itself, or a forecast from readings alone."""

from __future__ import annotations

import argparse
from pathlib import Path

from winebench.cli.arguments import CommandError
from winebench.cli.show import print_json
from winebench.units import Gravity, Temperature, UnitsError


def work(arguments: argparse.Namespace) -> int:
    """Run one trade rule with its workings, or list them."""
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
    print(f"{answer.rule} = {answer.result} {answer.unit}".rstrip())
    print(f"  {answer.words}")
    for given in answer.inputs:
        print(f"  {given.name} = {given.value} {given.unit}".rstrip())
    print(f"  Source: {answer.source}")
    return 0


def forecast(arguments: argparse.Namespace) -> int:
    """Forecast each CSV file of readings."""
    from winebench.forecast import forecast as work_out
    from winebench.forecast.table import as_json, evidence_from_csv

    try:
        og = Gravity(arguments.og).value if arguments.og else None
        room = Temperature(arguments.room).celsius if arguments.room else None
        below = tuple(Gravity(text).value for text in arguments.below)
    except UnitsError as problem:
        raise CommandError(str(problem)) from problem
    answers = []
    for path in arguments.files:
        try:
            evidence = evidence_from_csv(_text(path), path.name, og=og, room_celsius=room)
        except ValueError as problem:
            raise CommandError(str(problem)) from problem
        answers.append(as_json(str(path), work_out(evidence, below)))
    if arguments.json:
        print_json(answers)
        return 0
    for answer in answers:
        print(f"{answer['file']}: {answer['state']}")
        for crossing in answer["crossings"]:
            early, likely, late = (_days(crossing[key]) for key in ("q10_h", "q50_h", "q90_h"))
            print(f"  below {crossing['below']:.3f} after {likely} days ({early} to {late})")
        print(f"  chance of not finishing: {answer['not_finishing']:.0%}")
    return 0


def _days(hours: float | None) -> str:
    """Return hours as days; a line that may never be crossed has none."""
    return "no known number of" if hours is None else f"{hours / 24:.1f}"


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError) as problem:
        raise CommandError(f'"{path}" cannot be read as text: {problem}') from problem
