"""Cut a card into its items, each where it stands: lines, and what one line strings together."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from winebench.plan.handed_down.headings import NO_SECTION, Heading, Section, heading
from winebench.plan.handed_down.marks import BEHIND, IN_FRONT, unmarked
from winebench.plan.handed_down.method import tells_what_to_do
from winebench.plan.handed_down.owners import (
    holds_figures,
    is_sweet_or_water,
    is_water,
    names_another,
)
from winebench.plan.handed_down.sense import is_figure, named_kind, sense, states_figure
from winebench.plan.handed_down.shapes import Hint, Item
from winebench.plan.handed_down.shared_amount import Cut, shared
from winebench.plan.handed_down.title_size import sized
from winebench.plan.typed.lines import to_the_mark
from winebench.plan.typed.own_figures import only_figures
from winebench.units import SPELLINGS

MOST_ITEMS = 200
"""No card has more: what comes after is kept as one note."""
_MOST_TRIES = 600
_LINE = re.compile(r"[^\n\r\v\f\x1c-\x1e\x85\u2028\u2029]+")
_SEPARATOR = re.compile(
    r"\s*(?:;|\||,(?!\d)|(?<!\d),)\s*(?:(?:and|plus|&)\s+)?"
    r"|\s+(?:(?:dissolved|melted|boiled|stirred|simmered)\s+)?in(?:to)?\s+(?=[\d½¼¾]|(?:an?|one|two|half)\b)"
    r"|\s+(?:and|plus|&|\+)\s+|\s+/\s+(?=[A-Za-z])|(?<=[a-z])/(?=\d)|\t+|"
    r"(?<=[\d%])\s+(?=(?:T\.?A|P\.?A|[Aa]cid(?:ity)?)\b\.?[\s:=]*[\d.])|:\s+|(?<!\bNo)(?<!\bno)(?<!\bNO)(?<!\b[STPOF]\.[GA])\.\s+(?=[\dA-Z½¼¾])",
)


_NOTHING = f"{BEHIND}\r\n#-=>"
_SHORT_TITLE = 3
"""A first line of so few words is a title, though it may start with a verb."""
_TABLE_RULE = re.compile(r"[\r\n]+[ \t|:-]*-[ \t|:-]*(?=[\r\n]|$)")
_TITLE_PER = re.compile(
    r"(?i)(?P<name>[^\d(]*?[^\d(\s,;:–-])[\s,;:–-]*(?P<per>\(?(?:per|for\s+(?:each|every))\b[^()]*\)?)"
)
_SIZED_TITLE_PER = re.compile(
    r"(?i)(?P<name>.*?\w)[\s,;:–-]+(?P<per>\(?(?:per|for\s+(?:each|every))\b[^()]*\)?)"
)
_JOINING = ("and", "plus", "&", "+")


def items(text: str) -> tuple[Item, ...]:
    """Return the items in order; what lies between them are spaces, bullets and separators."""
    found: list[Item] = []
    under = NO_SECTION
    for line in _LINE.finditer(text):
        first = not text[: line.start()].strip(_NOTHING)
        if len(found) >= MOST_ITEMS:
            rest = _trimmed(text, line.start(), len(text))
            return (*found, *_item(text, *rest, hint="method"))
        start, end = _trimmed(text, line.start(), line.end())
        if _TABLE_RULE.match(text, line.end()) and "|" in line[0]:
            found += _item(text, start, end, hint="heading")
            continue
        if first:
            start, end, under, title = _title_by_the_gallon(text, start, end)
            found += title
        colon, before = ":" in text[end : line.end()], under
        head = heading(text[start:end], colon=colon)
        while head is not None:
            under = _under(head.section, before)
            after = start + head.length
            found += _heading(text, *_trimmed(text, start, after), head)
            start, end = _trimmed(text, _past_colon(text, after, end), end)
            head = heading(text[start:end], colon=colon) if end > start else None
        found += _of_line(text, start, end, under, first=first)
        under = before if under.own_line else under
    return tuple(found)


def _under(section: Section, before: Section) -> Section:
    """Return what is said of the lines below; "At bottling" within a method is method still."""
    return section._replace(doing=before.doing, per=before.per) if section.ends else section


def _heading(text: str, start: int, end: int, head: Heading) -> Iterator[Item]:
    if end > start:
        per = "" if head.section.own_line else head.section.per
        yield Item(text=text[start:end], start=start, end=end, hint="heading", per=per)


def _past_colon(text: str, start: int, end: int) -> int:
    while start < end and text[start] in " \t\u00a0:,.-–—*_":
        start += 1
    return start


def _trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    """Return the stretch without bullets in front and separators behind."""
    bullet = IN_FRONT.match(text, start, end)
    start = bullet.end() if bullet else start
    while end > start and (text[end - 1].isspace() or text[end - 1] in BEHIND):
        end -= 1
    return start, end


def _item(
    text: str,
    start: int,
    end: int,
    under: Section = NO_SECTION,
    *,
    hint: Hint = "any",
    behind: str = "",
    each: str = "",
) -> Iterator[Item]:
    if end > start:
        yield Item(
            text=text[start:end],
            start=start,
            end=end,
            hint=hint,
            per=under.per,
            fed=under.fed,
            ends=under.ends,
            behind=behind,
            each=each,
        )


def _of_line(text: str, start: int, end: int, under: Section, *, first: bool) -> Iterator[Item]:
    body = text[start:end]
    if under.doing and states_figure(body):
        yield from _item(text, start, end)
        return
    if first and not re.search(r"[\d,;|\t]", body) and len(body.split()) <= _SHORT_TITLE:
        yield from _item(text, start, end)
        return
    size = sized(body) if first else None
    if size is not None and size.is_told and tells_what_to_do(body):
        yield from _item(text, start, end)  # "Test wine, makes 5 gallons": no verb
        return
    told = tells_what_to_do(body) and not is_figure(body) and to_the_mark(unmarked(body)) is None
    if under.doing or told:
        yield from _item(text, start, end, under._replace(per=""), hint="method")
        return
    if first and not re.search(r"[\d,;|\t]", body):
        yield from _item(text, start, end)  # a title such as "Blackberry and apple"
        return
    cuts = list(_cut(body))
    if first:
        cuts = _as_one_title(body, cuts)
    for cut in shared(body, cuts):
        begin, last = _trimmed(text, start + cut.start, start + cut.end)
        section = under._replace(per=cut.per) if cut.per else under
        yield from _item(text, begin, last, section, behind=cut.behind, each=cut.each)


def _title_by_the_gallon(
    text: str, start: int, end: int
) -> tuple[int, int, Section, tuple[Item, ...]]:
    """Return what is left of a first line such as "Parsnip (per gallon)", and its items."""
    found = _TITLE_PER.fullmatch(text[start:end])
    if found is None:  # "Wild plum, 3 gal batch, per gallon"
        found = _SIZED_TITLE_PER.fullmatch(text[start:end])
        found = found if found is not None and sized(found["name"]) is not None else None
    head = heading(found["per"], colon=True) if found else None
    if found is None or head is None:
        return start, end, NO_SECTION, ()
    title = _item(text, start, start + found.end("name"))
    per = _heading(text, start + found.start("per"), end, head)
    return end, end, head.section, (*title, *per)


def _as_one_title(body: str, cuts: list[Cut]) -> list[Cut]:
    """Return the cuts with names that "and" joins at the front as one: "Rhubarb & ginger; 5 L"."""
    size = sized(body)
    joined = size is not None and re.search(r"(?i)\s(?:&|and|\+)\s", size.name) is not None
    if size is not None and joined and all(cut.start < len(size.name) for cut in cuts):
        return [Cut(0, len(body))]  # "Apple & bramble, 23 litres"
    last = 0
    for before, after in pairwise(cuts):
        mark = body[before.end : after.start].strip()
        if mark not in _JOINING or sense(body[after.start : after.end]) not in ("name", "words"):
            break
        last += 1
    if last == 0 or sense(body[: cuts[0].end]) not in ("name", "words"):
        return cuts
    return [Cut(0, cuts[last].end), *cuts[last + 1 :]]


def _cut(body: str) -> Iterator[Cut]:
    """Give where each item of the line starts and ends, and the fruit it was cut off from."""
    start, behind, sweetened = 0, "", False
    separators = [
        found
        for found in _SEPARATOR.finditer(body)
        if not _in_brackets(body, found) and not _in_an_amount(body, found)
    ]
    for place, found in enumerate(separators[:_MOST_TRIES]):
        after = separators[place + 1].start() if place + 1 < len(separators) else len(body)
        before, coming = body[start : found.start()].strip(), body[found.end() : after].strip()
        if not before or not coming:
            continue
        own = only_figures(coming) and holds_figures(before, coming)
        if own and not sweetened and holds_figures(before, coming) == "likely":
            continue
        if own or _parts(before, coming, found[0].strip()):
            yield Cut(start, found.start(), behind)
            more = bool(behind) and only_figures(before) and only_figures(coming)
            start, behind = found.end(), before if own else behind if more else ""
            sweetened = sweetened or is_sweet_or_water(before)
    yield Cut(start, len(body), behind)


def _in_brackets(body: str, found: re.Match[str]) -> bool:
    return body.count("(", 0, found.start()) > body.count(")", 0, found.start()) and (
        ")" in body[found.end() :]
    )


def _in_an_amount(body: str, found: re.Match[str]) -> bool:
    """Return whether it is the stroke of "3lb/1.4kg plums" or "10 g sugar/100 ml"."""
    if found[0] != "/":
        return False
    before = re.search(r"[A-Za-z]+$", body[: found.start()])
    hundred = re.match(r"100\s*(?:g|ml)\b", body[found.end() :], re.IGNORECASE)
    return hundred is not None or (before is not None and before[0].lower() in SPELLINGS)


def _parts(before: str, coming: str, mark: str) -> bool:
    """Return whether another item starts at `coming`, behind that mark."""
    if mark == "." and tells_what_to_do(coming):  # "1 packet yeast. Stir daily"
        return True
    if only_figures(coming) and is_figure(before):  # "OG 1.090, pH 3.5"
        return True
    if mark.endswith(("in", "into")):  # "2 lb sugar dissolved in 1 pint water"
        return is_water(coming)
    ahead = sense(coming)
    if ahead == "words":
        return False
    if not is_figure(before) and is_figure(f"{before} {coming}"):  # "SG: 1.085"
        return False
    behind = sense(before)
    if mark == "/":  # "3 lb / 1.4 kg" is one amount, "3 lb plums / damsons" a choice
        other = ahead == "name" and named_kind(coming) != "fruit"
        return behind == "item" and (ahead == "item" or other)
    if behind == "words" and mark in _JOINING:  # "juice and rind of 1 lemon"
        return False
    if mark == ":" and behind == "name" and ahead == "item" and not names_another(coming):
        return False  # "Sugar: 1.6 kg white"
    if ahead == "amount" and behind == "item" and not is_figure(before):
        return False  # "1 sachet, 5 g"
    if ahead == "volume" and mark == ";":  # "Banana & fig; 5 L" makes so much
        return behind != "amount"
    if ahead in ("amount", "volume"):  # "plums, 3 lb" is one; "Plum wine, 1 gallon" is two
        return behind in ("item", "volume") or (ahead == "volume" and behind == "words")
    return behind != "amount"
