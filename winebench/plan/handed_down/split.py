"""Cut a card into its items, each where it stands: lines, and what one line strings together."""

from __future__ import annotations

import re
from collections.abc import Iterator

from winebench.plan.handed_down.method import heading, tells_what_to_do
from winebench.plan.handed_down.sense import is_figure, sense
from winebench.plan.handed_down.shapes import Hint, Item

MOST_ITEMS = 200
"""No card has more: what comes after is kept as one note."""
_MOST_TRIES = 600
_LINE = re.compile(r"[^\n\r\v\f\x1c-\x1e\x85\u2028\u2029]+")
BULLET = re.compile(
    r"(?:\s|[-–—•·*‣◦▪▫●○■□☐☑✓✔>|]|\[[ xX]?\])*"
    r"(?:\(?\d{1,2}[.)]\s+(?=\S)(?:\s|[-–—•·*]|\[[ xX]?\])*)?"
)
"""What stands in front of an item and says nothing: bullets, boxes, numbering."""
_SEPARATOR = re.compile(
    r"\s*(?:;|\||,(?!\d)|(?<!\d),)\s*(?:(?:and|plus|&)\s+)?"
    r"|\s+(?:and|plus|&|\+)\s+|\s+/\s+(?=[A-Za-z])|\t+|:\s+|\.\s+(?=[\dA-Z½¼¾])",
)


_JOINING = ("and", "plus", "&", "+")


def items(text: str) -> tuple[Item, ...]:
    """Return the items in order; what lies between them are spaces, bullets and separators."""
    found: list[Item] = []
    doing = False
    for line in _LINE.finditer(text):
        if len(found) >= MOST_ITEMS:
            rest = _trimmed(text, line.start(), len(text))
            return (*found, *_item(text, *rest, "method"))
        start, end = _trimmed(text, line.start(), line.end())
        head = heading(text[start:end])
        if head is not None:
            doing = head["do"] is not None
            after = start + head.end()
            found += _item(text, *_trimmed(text, start, after), "heading")
            start, end = _trimmed(text, _past_colon(text, after, end), end)
        found += _of_line(text, start, end, doing=doing)
    return tuple(found)


def _past_colon(text: str, start: int, end: int) -> int:
    while start < end and text[start] in " \t\u00a0:.-–—":
        start += 1
    return start


def _trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    """Return the stretch without bullets in front and separators behind."""
    bullet = BULLET.match(text, start, end)
    start = bullet.end() if bullet else start
    while end > start and (text[end - 1].isspace() or text[end - 1] in ",;|:"):
        end -= 1
    return start, end


def _item(text: str, start: int, end: int, hint: Hint = "any") -> Iterator[Item]:
    if end > start:
        yield Item(text=text[start:end], start=start, end=end, hint=hint)


def _of_line(text: str, start: int, end: int, *, doing: bool) -> Iterator[Item]:
    body = text[start:end]
    if doing or (tells_what_to_do(body) and not is_figure(body)):
        yield from _item(text, start, end, "method")
        return
    if not text[:start].strip() and not re.search(r"[\d,;|\t]", body):
        yield from _item(text, start, end)  # a title such as "Blackberry and apple"
        return
    for first, last in _cut(body):
        yield from _item(text, *_trimmed(text, start + first, start + last))


def _cut(body: str) -> Iterator[tuple[int, int]]:
    """Give where each item of the line starts and ends."""
    start = 0
    separators = [found for found in _SEPARATOR.finditer(body) if not _in_brackets(body, found)]
    for place, found in enumerate(separators[:_MOST_TRIES]):
        after = separators[place + 1].start() if place + 1 < len(separators) else len(body)
        before, coming = body[start : found.start()].strip(), body[found.end() : after].strip()
        if before and coming and _parts(before, coming, found[0].strip()):
            yield start, found.start()
            start = found.end()
    yield start, len(body)


def _in_brackets(body: str, found: re.Match[str]) -> bool:
    return body.count("(", 0, found.start()) > body.count(")", 0, found.start()) and (
        ")" in body[found.end() :]
    )


def _parts(before: str, coming: str, mark: str) -> bool:
    """Return whether another item starts at `coming`, behind that mark."""
    if mark == "." and tells_what_to_do(coming):  # "1 packet yeast. Stir daily"
        return True
    ahead = sense(coming)
    if ahead == "words":
        return False
    if not is_figure(before) and is_figure(f"{before} {coming}"):  # "SG: 1.085"
        return False
    behind = sense(before)
    if mark == "/":  # "3 lb / 1.4 kg" is one amount
        return ahead == "item" and behind == "item"
    if behind == "words" and mark in _JOINING:  # "juice and rind of 1 lemon"
        return False
    if ahead in ("amount", "volume"):  # "plums, 3 lb" is one; "Plum wine, 1 gallon" is two
        return behind in ("item", "volume") or (ahead == "volume" and behind == "words")
    return behind != "amount"
