"""The command that sets two batches side by side."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from winebench.cli.arguments import CommandError
from winebench.cli.projects import look
from winebench.cli.show import print_json, wrapped
from winebench.plan.compare import PARTS, Comparison, Difference, alike_words
from winebench.plan.compare import compare as side_by_side


def compare(arguments: argparse.Namespace) -> int:
    """Tell what differs by more than can be measured, and what that does."""
    this, that = (look(path, arguments.at) for path in (arguments.file, arguments.other))
    try:
        found = side_by_side(this.project, that.project, this.at)
    except (ValueError, ArithmeticError) as problem:
        raise CommandError(
            f'"{arguments.file}" and "{arguments.other}" cannot be compared: {problem}'
        ) from problem
    if arguments.json:
        print_json(found)
    else:
        for back in dict.fromkeys(filter(None, (this.back, that.back))):
            print("\n".join(wrapped("", back)))
        print("\n".join(_lines(found)))
    return 0


def _lines(found: Comparison) -> Iterator[str]:
    yield from wrapped("this: ", found.this)
    yield from wrapped("that: ", found.that)
    for part, title in PARTS.items():
        rows = [each for each in found.differences if each.part == part]
        if rows:
            yield ""
            yield title.upper()
        for each in rows:
            yield from _row(each)
    yield ""
    yield from wrapped("", alike_words(found))


def _row(each: Difference) -> Iterator[str]:
    yield from wrapped(f"  {each.what}: ", f"this {each.this}; that {each.that}")
    if each.does:
        yield from wrapped("      ", f"{each.does} ({each.source})")
