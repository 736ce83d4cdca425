"""The command that lets a batch learn from finished ones, and forget them again."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence

from winebench.cli.arguments import CommandError
from winebench.cli.projects import look, now, read, write
from winebench.cli.show import wrapped
from winebench.model.project import Project
from winebench.plan.learning.learn_from import NotLearnedError, learn_from
from winebench.plan.learning.lessons import Lesson, lessons_of, take_out, told_lesson
from winebench.plan.learning.own_ferments import NOTHING_LEARNED, learned_words
from winebench.plan.learning.own_losses import pooled_words


def learn(arguments: argparse.Namespace) -> int:
    """Learn from each FROM that can be learned from, and list what the file learned from.

    Return 0, 1 where a batch teaches nothing, 2 where one cannot be read.
    """
    before = read(arguments.file)
    gone = lessons_of(before) if arguments.forget_all else _named(before, arguments.forget)
    project = take_out(before, gone).apply(before) if gone else before
    worst, at = 0, arguments.at or now()
    for path in arguments.batches:
        try:
            finished, _, back = look(path, arguments.at)
            project = learn_from(project, finished, at).apply(project)
            if back:
                print("\n".join(wrapped(f"{path}: ", back)))
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


def _named(project: Project, names: Sequence[str]) -> tuple[Lesson, ...]:
    """Return what batches of those names or ids taught; CommandError where one is none or two."""
    return tuple(_one(project, name) for name in dict.fromkeys(names))


def _one(project: Project, name: str) -> Lesson:
    known = lessons_of(project)
    found = [one for one in known if name in (one.name, one.batch)]
    if len(found) == 1:
        return found[0]
    if found:
        ids = " or ".join(one.batch for one in found)
        raise CommandError(f'there are {len(found)} batches "{name}"; name one by its id: {ids}')
    names = ", ".join(f'"{one.name}"' for one in known) or "nothing at all"
    raise CommandError(f'nothing was learned from "{name}"; this learned from {names}')


def _lines(project: Project, gone: tuple[Lesson, ...]) -> Iterator[str]:
    kept = lessons_of(project)
    for one in gone:
        if one not in kept:
            yield from wrapped("forgotten: ", one.name)
    for one in kept:
        yield from wrapped(f"{one.name}: ", f"{told_lesson(one)} (id {one.batch})")
    yield from wrapped("", learned_words(project) or NOTHING_LEARNED)
    if project.own_losses:
        yield from wrapped("", pooled_words(project))
