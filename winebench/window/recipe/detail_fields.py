"""What there is to say of each kind of line beyond its amount."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from winebench.model.edits import changed
from winebench.model.recipe import (
    AdditiveLine,
    FruitLine,
    Line,
    SugarLine,
    WaterLine,
    YeastLine,
)
from winebench.plan.typed.numbers import number, number_text
from winebench.units import Gravity, Juice, Temperature


class TextDetail(NamedTuple):
    """One text field: how it is shown, read, and put into the line."""

    key: str
    words: str
    unit: str
    read: Callable[[str], Any]
    text: Callable[[Any], str]
    put: Callable[[Line, Any], Line]
    empty: bool = True
    hint: str = ""


class ChoiceDetail(NamedTuple):
    """One of a few words."""

    key: str
    words: str
    options: tuple[tuple[str, str], ...]


FORMS = (
    ("fresh", "fresh"),
    ("frozen", "frozen"),
    ("puree", "strained puree"),
    ("juice", "juice"),
    ("dried", "dried"),
    ("canned", "canned"),
)
_WHEN = (("start", "at the start"), ("feed", "fed later"))


def _measured(key: str) -> Callable[[Line, Any], Line]:
    def put(line: Line, value: Any) -> Line:
        assert isinstance(line, FruitLine)
        return changed(line, measured=changed(line.measured, **{key: value}))

    return put


def _own(key: str) -> Callable[[Line, Any], Line]:
    def put(line: Line, value: Any) -> Line:
        return changed(line, **{key: value})

    return put


def _measured_text(key: str) -> Callable[[Any], str]:
    return lambda line: _text(getattr(line.measured, key))


def _own_text(key: str) -> Callable[[Any], str]:
    return lambda line: _text(getattr(line, key))


def _text(value: Any) -> str:
    if isinstance(value, (Gravity, Temperature)):
        return value.text
    return value if isinstance(value, str) else number_text(value)


def _of_fruit(
    key: str, words: str, unit: str, read: Callable[[str], Any], hint: str = "typical"
) -> TextDetail:
    return TextDetail(key, words, unit, read, _measured_text(key), _measured(key), hint=hint)


def _of_line(key: str, words: str, unit: str, read: Callable[[str], Any]) -> TextDetail:
    return TextDetail(key, words, unit, read, _own_text(key), _own(key), empty=False)


_NOTE = TextDetail("note", "Note", "", str, _own_text("note"), lambda line, value: changed(
    line, note=value or ""
))  # fmt: skip
_FRUIT = (
    ChoiceDetail("form", "Form", FORMS),
    _of_fruit("juice", "Juice reads", "", Juice, "SG or brix"),
    _of_fruit("acid_g_per_l", "Acidity", "g/L", number(0.0, 80.0, "g/L")),
    _of_fruit("ph", "pH", "", number(2.0, 6.0)),
    _of_fruit("liquid_percent", "Juice it gives", "%", number(1.0, 100.0, "%")),
    _of_fruit("tannin_mg_per_100_g", "Tannin", "mg/100 g", number(0.0, 5000.0)),
    _NOTE,
)
_SUGAR = (
    ChoiceDetail("when", "Goes in", _WHEN),
    TextDetail(
        "solids_percent",
        "Sugar by its label",
        "%",
        number(1.0, 100.0, "%"),
        _own_text("solids_percent"),
        _own("solids_percent"),
        hint="typical",
    ),
    _NOTE,
)
_YEAST = (
    _of_line("packet_g", "One packet is", "g", number(0.1, 1000.0, "g")),
    _of_line("tolerance_percent", "Stands", "% vol", number(1.0, 25.0, "% vol")),
    _of_line("coolest", "Coolest", "", Temperature),
    _of_line("warmest", "Warmest", "", Temperature),
    _of_line("packet_litres", "A packet serves", "L", number(0.1, 10000.0, "L")),
    _NOTE,
)


def details_of(line: Line) -> tuple[TextDetail | ChoiceDetail, ...]:
    """Return what there is to say of such a line, in order."""
    if isinstance(line, FruitLine):
        return _FRUIT
    if isinstance(line, SugarLine):
        return _SUGAR
    if isinstance(line, YeastLine):
        return _YEAST
    assert isinstance(line, (WaterLine, AdditiveLine))
    return (_NOTE,)
