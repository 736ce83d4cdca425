"""The command that tells on which days a batch can be started."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from winebench.cli.arguments import CommandError
from winebench.cli.projects import look
from winebench.cli.show import print_json, wrapped
from winebench.plan.household.start_days import StartDay
from winebench.plan.household.start_days import start_days as days_to_start
from winebench.plan.typed.when import day_name


def start_days(arguments: argparse.Namespace) -> int:
    """Show each day to come: free, or what would fall in the days away."""
    project, at, back = look(arguments.file, arguments.at)
    try:
        days = list(days_to_start(project, at, arguments.first, arguments.weeks))
    except ValueError as problem:
        raise CommandError(f'"{project.name}": {problem}') from problem
    if arguments.json:
        print_json({"days_away": project.away, "days": days})
        return 0
    if back:
        print("\n".join(wrapped("", back)))
    if not project.away:
        print("No days away are noted, so every day is free.")
        return 0
    print("\n".join(_lines(days)))
    return 0


def _lines(days: list[StartDay]) -> Iterator[str]:
    yield "What cannot wait and would fall in the days away, for each day to start on:"
    for day in days:
        mark = " " if day.free else "-"
        yield from wrapped(f"{mark} {day_name(day.day):16} ", day.sentence)
    free = next((day for day in days if day.free), None)
    yield ""
    if free is None:
        yield "No day of these is free; look further with --weeks, or ask somebody to come in."
    else:
        yield from wrapped("", f"First free day: {day_name(free.day)}. {free.fruit}")
