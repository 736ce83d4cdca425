"""The command that compares the vessels of several batches."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.projects import look, plan
from winebench.cli.show import print_json, wrapped
from winebench.plan.household.clashes import clashes as vessels_wanted_twice


def clashes(arguments: argparse.Namespace) -> int:
    """Tell which vessels are wanted by two batches on one day; ends with 1 where one is."""
    if len(arguments.files) < 2:
        raise CommandError("name two project files or more, whose vessels are to be compared")
    looks = [look(path, arguments.at) for path in arguments.files]
    found = vessels_wanted_twice((one.project, plan(one.project, one.at)) for one in looks)
    if arguments.json:
        print_json(found)
        return 1 if found else 0
    for path, one in zip(arguments.files, looks, strict=True):
        if one.back:
            print("\n".join(wrapped(f"{path}: ", one.back)))
    for clash in found:
        print("\n".join(wrapped("", clash.sentence)))
        print("\n".join(wrapped("  ", clash.detail)))
    if not found:
        print("No vessel is wanted by two batches on one day.")
    return 1 if found else 0
