"""The words of a person's own text file, or of standard input."""

from __future__ import annotations

import sys

from winebench.cli.arguments import CommandError

MOST_BYTES = 1_000_000
"""A season's notes are a few thousand letters, a card a few hundred."""


def plain_text(name: str, kind: str) -> str:
    """Return the text of that file, or of standard input where its name is "-".

    `kind` says what it should hold, such as "notes".

    Raises:
        CommandError: it cannot be read, is far too long, or is no text.

    """
    try:
        if name == "-":
            data = sys.stdin.buffer.read(MOST_BYTES + 1)
        else:
            with open(name, "rb") as file:
                data = file.read(MOST_BYTES + 1)
    except OSError as problem:
        raise CommandError(
            f'"{name}" cannot be read ({problem.strerror}); check the name'
        ) from None
    except ValueError:
        raise CommandError("a name of a file holds no zero byte; check the name") from None
    if len(data) > MOST_BYTES:
        raise CommandError(f'"{name}" is far too long for {kind}; is it the right file?')
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = "\0"
    if "\0" in text:
        raise CommandError(f'"{name}" is not UTF-8 text; save it as plain text')
    return text
