"""The command line: each command a thin door to the same outlook as the window."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from winebench.cli.arguments import CommandError, parsed


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; return its exit code (0 done, 1 cautions, 2 bad input).

    Bad input is one line on standard error: what, where, what to do.
    """
    try:
        arguments = parsed(sys.argv[1:] if argv is None else argv)
        return int(arguments.run(arguments))
    except CommandError as problem:
        print(f"winebench: {problem}", file=sys.stderr)
        return 2
    except BrokenPipeError:  # the reader of our output went away, as in "| head"
        sys.stderr.close()
        return 0
