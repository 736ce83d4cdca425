"""The arguments of the commands about days away and vessels shared."""

from __future__ import annotations

from pathlib import Path

from winebench.cli.arguments import Command, at_option, day, json_option


def add(command: Command) -> None:
    """Add them."""
    start = command("start-days", "start_days", "start_days", "days to start on, round days away")
    start.add_argument("file", type=Path)
    start.add_argument("--from", dest="first", type=day, help="first day (ISO 8601); else today")
    start.add_argument("--weeks", type=int, default=6, help="how many weeks to look at")
    at_option(start)
    json_option(start)

    several = command("clashes", "clashes", "clashes", "vessels that two batches want on one day")
    several.add_argument("files", nargs="+", type=Path, metavar="FILE")
    at_option(several)
    json_option(several)
