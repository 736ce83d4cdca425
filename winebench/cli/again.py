"""The command that makes a batch again."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.projects import look, write
from winebench.cli.show import wrapped
from winebench.plan.again.last_time import asked_again
from winebench.plan.again.make import learned_again, lesson_again, make_again, taken_from_log

_MAY_TEACH = (
    "Its forecast does not learn from the batch that it was made from, unless you let it: "
    "see winebench learn."
)


def again(arguments: argparse.Namespace) -> int:
    """Write a new project of the batch as it was made; never over an existing file."""
    if arguments.output.exists():
        raise CommandError(f'"{arguments.output}" exists already; choose another name')
    project, at, back = look(arguments.file, arguments.at)
    new = make_again(project, at)
    write(arguments.output, new)
    print(f'Wrote "{arguments.output}": {new.name}.')
    if back:
        print("\n".join(wrapped("", back)))
    taken = taken_from_log(project)
    print("Taken from the log:" if taken else "The log says nothing that the recipe does not.")
    teaches = lesson_again(project, new, at) is not None
    may = (_MAY_TEACH,) if teaches else ()
    for sentence in (*taken, *asked_again(new), *learned_again(project, new), *may):
        print("\n".join(wrapped("  ", sentence)))
    return 0
