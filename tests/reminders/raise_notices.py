"""Raise two notices of one step and one of another; run as a process beside a real service."""

import json
import sys
from datetime import UTC, datetime

from winebench.reminders.due import Notice
from winebench.reminders.notices import BusNotices

DUE = datetime(2026, 10, 6, 18, 0, tzinfo=UTC)


def notice(step: str, title: str, body: str) -> Notice:
    return Notice(key=f"{step}@{title}", step=step, due=DUE, title=title, body=body, late=False)


def main() -> None:
    port = BusNotices()
    sent = [
        port.send(notice("stir", "Damson: stir", "Push the fruit under.")),
        port.send(notice("stir", "Damson: stir", "26 h late & <still> worth it: ½ a minute.")),
        port.send(notice("read-gravity", "Damson: read", "Gravity please.")),
    ]
    json.dump(sent, sys.stdout)


if __name__ == "__main__":
    main()
