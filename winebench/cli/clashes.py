"""The command that compares the vessels of several batches."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.projects import now, plan, read
from winebench.cli.show import print_json, wrapped
from winebench.plan.household.clashes import clashes as vessels_wanted_twice


def clashes(arguments: argparse.Namespace) -> int:
    """Tell which vessels are wanted by two batches on one day; ends with 1 where one is."""
    if len(arguments.files) < 2:
        raise CommandError("name two project files or more, whose vessels are to be compared")
    at = arguments.at or now()
    projects = [read(path) for path in arguments.files]
    found = vessels_wanted_twice((project, plan(project, at)) for project in projects)
    if arguments.json:
        print_json(found)
        return 1 if found else 0
    for clash in found:
        print("\n".join(wrapped("", clash.sentence)))
        print("\n".join(wrapped("  ", clash.detail)))
    if not found:
        print("No vessel is wanted by two batches on one day.")
    return 1 if found else 0
