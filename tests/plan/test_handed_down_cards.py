"""Wild cards, line by line, each with what a person reads on it beside it.

A card's line, "=>", and what is read: one part for each item, "!" where something is to be said.
"""

from pathlib import Path

import pytest

from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, WaterLine, YeastLine
from winebench.plan.handed_down.read_card import read_card

CARDS = Path(__file__).parent / "cards"


def cards(name):
    return (CARDS / f"{name}.txt").read_text("utf-8").strip().split("\n\n")


def typed_and_expected(card):
    lines = [line.partition("=>") for line in card.splitlines()]
    text = "\n".join(typed.rstrip() for typed, _, _ in lines)
    expected = [part.strip() for _, _, right in lines for part in right.split("|")]
    return text, [part for part in expected if part]


def told(row):
    """Return a row in the words of the tables."""
    if row.kind == "question":
        return row.state
    mark = " !" if row.state == "look" else ""
    if row.kind == "method":
        return f"note{mark}"
    if row.kind == "heading":
        return f"heading{mark}"
    if row.line is not None:
        return f"{_line(row)}{mark}"
    words = ["title"] if row.kind == "title" else []
    return " ".join([*words, *([_field(row.field)] if row.field else [])]) + mark


def _field(field):
    if field.basis is not None:
        return f"makes {field.basis.text}"
    values = [getattr(value, "text", None) or f"{value:g}" for value in field.targets.values()]
    return f"{field.name} {' '.join(dict.fromkeys(values))}"


def _line(row):
    line = row.line
    match line:
        case FruitLine():
            measured = line.measured
            parts = [
                f"fruit {line.fruit} {line.amount.text}",
                line.form if line.form != "fresh" else "",
                "prepared" if line.prepared else "",
                f"juice {measured.juice.text}" if measured.juice else "",
                f"acid {measured.acid_g_per_l:.3g}" if measured.acid_g_per_l is not None else "",
                f"ph {measured.ph:g}" if measured.ph is not None else "",
            ]
        case SugarLine():
            percent = line.solids_percent
            parts = [
                f"sugar {line.sugar} {line.amount.text}",
                "feed" if line.when == "feed" else "",
                f"{percent:g} %" if percent is not None else "",
            ]
        case WaterLine():
            at = f" at {row.field.basis.text}" if row.field else ""
            parts = [f"water {line.amount.text if line.amount else f'mark{at}'}"]
        case YeastLine():
            parts = [f"yeast {line.amount.text}"]
        case AdditiveLine():
            parts = [f"extra {line.additive} {line.amount.text}"]
    return ", ".join(filter(None, parts))


NAMES = ("wild", "examined", "letters", "forum", "ledger", "thousands", "endings")
ALL = [card for name in NAMES for card in cards(name)]


@pytest.mark.parametrize("card", ALL)
def test_a_card_is_read_as_a_person_reads_it(card):
    text, expected = typed_and_expected(card)
    found = [told(row) for row in read_card(text, gallon="US").rows]
    assert found == expected


@pytest.mark.parametrize("card", ALL)
def test_whatever_a_card_is_offered_instead_settles_the_row(card):
    text = typed_and_expected(card)[0]
    for row in read_card(text, gallon="US").rows:
        for way in [way for remark in row.remarks for way in remark.ways]:
            if row.kind == "title":
                title = read_card(text.replace(row.item.text, way.text, 1), gallon="US").rows[0]
                assert (title.kind, title.is_open) == ("title", False)
                continue
            mended = read_card(f"Title\n{way.text}\nmakes 5 L", gallon="US").rows[1:]
            assert not any(each.is_open for each in mended), (row.item.text, way.text)
            assert any(each.kind in ("line", "field") for each in mended[:-1]), way.text
