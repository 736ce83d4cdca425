"""The command that lets a batch's forecast learn from finished ones, and forget them again."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence

from winebench.cli.arguments import CommandError
from winebench.cli.projects import now, read, write
from winebench.cli.show import wrapped
from winebench.model.own_ferment import OwnFerment
from winebench.model.project import Project
from winebench.plan.learning.learn_from import NotLearnedError, learn_from
from winebench.plan.learning.own_ferments import NOTHING_LEARNED, forget, learned_words, told


def learn(arguments: argparse.Namespace) -> int:
    """Learn from each FROM that can be learned from, and list what the file learned from.

    Return 0, 1 where a batch teaches nothing, 2 where one cannot be read.
    """
    before = read(arguments.file)
    gone = before.own_ferments if arguments.forget_all else _named(before, arguments.forget)
    project = forget(before, gone).apply(before) if gone else before
    worst, at = 0, arguments.at or now()
    for path in arguments.batches:
        try:
            project = learn_from(project, read(path), at).apply(project)
        except CommandError as problem:
            print(f"winebench: {problem}", file=sys.stderr)
            worst = 2
        except NotLearnedError as problem:
            print(f"{path}: {problem}", file=sys.stderr)
            worst = max(worst, 1)
    if project != before:
        write(arguments.file, project)
    print("\n".join(_lines(project, gone)))
    return worst


def _named(project: Project, names: Sequence[str]) -> tuple[OwnFerment, ...]:
    """Return the ferments of those names or batch ids; CommandError where one is none or two."""
    return tuple(_one(project, name) for name in dict.fromkeys(names))


def _one(project: Project, name: str) -> OwnFerment:
    found = [one for one in project.own_ferments if name in (one.name, one.batch)]
    if len(found) == 1:
        return found[0]
    if found:
        ids = " or ".join(one.batch for one in found)
        raise CommandError(f'there are {len(found)} batches "{name}"; name one by its id: {ids}')
    known = ", ".join(f'"{one.name}"' for one in project.own_ferments) or "nothing at all"
    raise CommandError(f'nothing was learned from "{name}"; this learned from {known}')


def _lines(project: Project, gone: tuple[OwnFerment, ...]) -> Iterator[str]:
    for one in gone:
        if one not in project.own_ferments:
            yield from wrapped("forgotten: ", one.name)
    for one in project.own_ferments:
        yield from wrapped(f"{one.name}: ", f"{told(one)} (id {one.batch})")
    yield from wrapped("", learned_words(project) or NOTHING_LEARNED)
