"""Set everything up and pass the tests.

    python3 packaging/test.py [arguments of pytest]

Without arguments the linters, the type checker and the layer rules run too.
"""

from __future__ import annotations

import os
import subprocess
import sys

from environment import DRAWING, TOP, SetUpError, bring_libraries, make_environment, say

CHECKS = (
    ("format", ("ruff", "format", "--check", ".")),
    ("lint", ("ruff", "check", ".")),
    ("types", ("mypy",)),
)


def main(arguments: list[str]) -> int:
    """Set up and test; return 0 when everything passed."""
    try:
        python = make_environment("requirements-dev")
    except SetUpError as problem:
        say(str(problem))
        return 1
    if not bring_libraries(DRAWING):
        return 1
    failed = []
    for name, command in () if arguments else CHECKS:
        if subprocess.run([str(python), "-m", *command], cwd=TOP, check=False).returncode:
            failed.append(name)
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen"}
    tests = [str(python), "-m", "pytest", *arguments]
    if subprocess.run(tests, cwd=TOP, env=environment, check=False).returncode:
        failed.append("tests")
    say(f"Failed: {', '.join(failed)}." if failed else "Everything passed.")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
