"""The arguments of the commands that print, or tell what to buy."""

from __future__ import annotations

from pathlib import Path

from winebench.cli.arguments import Command, at_option, day, json_option


def add(command: Command) -> None:
    """Add them."""
    card = command("card", "pages", "card", "print the batch card to a PDF")
    labels = command("labels", "pages", "labels", "print the bottle labels to a PDF")
    calendar = command("calendar", "pages", "calendar", "steps and chores as an iCalendar file")
    helper = command("stand-in", "pages", "stand_in", "half a page for whoever stirs meanwhile")
    helper.add_argument("--from", dest="first", type=day, help="first day; else the next days away")
    helper.add_argument("--to", dest="last", type=day, help="last day (ISO 8601)")
    for page in (card, labels, calendar, helper):
        page.add_argument("file", type=Path)
        page.add_argument("-o", "--output", type=Path, required=True)
        at_option(page)
    for page in (card, helper):
        page.add_argument("--paper", choices=("A4", "Letter"), help="else the project's own")
    labels.add_argument("--sheet", help="key of the label sheet; else the project's own")
    labels.add_argument("--count", type=int, help="how many labels; else one a bottle")

    shop = command("shopping", "shopping", "shopping", "what to buy, what is in stock, the cost")
    shop.add_argument("file", type=Path)
    shop.add_argument("-o", "--output", type=Path, help="print it to this PDF")
    shop.add_argument("--paper", choices=("A4", "Letter"), help="else the project's own")
    at_option(shop)
    json_option(shop)
