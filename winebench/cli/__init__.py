"""The command line: each command a thin door to the same outlook as the window."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Sequence

from winebench.cli.arguments import CommandError
from winebench.cli.commands import parsed


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; return its exit code (0 done, 1 cautions, 2 bad input).

    Bad input is one line on standard error: what, where, what to do.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(
            stream, io.TextIOWrapper
        ):  # a terminal may lack "°"; that is no reason to fail
            stream.reconfigure(errors="replace")
    try:
        arguments = parsed(sys.argv[1:] if argv is None else argv)
        code = int(arguments.run(arguments))
        sys.stdout.flush()
    except CommandError as problem:
        return _refused(str(problem))
    except BrokenPipeError:  # the reader of our output went away, as in "| head"
        _drop_output()
        return 0
    except OSError as problem:  # what commands read and write they answer for themselves
        _drop_output()
        return _refused(f"the answer cannot be written ({problem.strerror}); send it elsewhere")
    return code


def _refused(sentence: str) -> int:
    print(f"winebench: {' '.join(sentence.split())}", file=sys.stderr)
    return 2


def _drop_output() -> None:
    """Send what is still to be written nowhere, so that Python's own last flush is quiet."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
