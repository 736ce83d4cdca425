"""Set everything up and open Winebench on a bundled sample.

    python3 packaging/start.py [arguments of winebench]

A machine without a screen gets the sample's plan as text.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time

from environment import DRAWING, SCREEN, SetUpError, bring_libraries, make_environment, say

SAMPLE = "raspberry-day-3"
LONG_OPEN_S = 30.0
"""A window that ends badly after so long was open; one that cannot open ends at once."""


def main(arguments: list[str]) -> int:
    """Set up, then open the window or print the plan; return the exit code."""
    try:
        python = make_environment("requirements")
    except SetUpError as problem:
        say(str(problem))
        return 1
    if arguments:
        return subprocess.run([str(python), "-m", "winebench", *arguments], check=False).returncode
    if has_screen() and bring_libraries(DRAWING | SCREEN):
        command = [str(python), "-m", "winebench", "--like", SAMPLE]
        began = time.monotonic()
        ended = subprocess.run(command, check=False).returncode
        if ended == 0 or time.monotonic() - began > LONG_OPEN_S:
            return ended
        say("The window did not open; here is the same plan as text.")
    command = [str(python), "-m", "winebench", "outlook", "--like", SAMPLE]
    return subprocess.run(command, check=False).returncode


def has_screen() -> bool:
    """Return whether a window can be shown here."""
    if not sys.platform.startswith("linux"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
