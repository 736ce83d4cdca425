"""The palette: as designed, readable, and the only place where colours are written."""

import re
from pathlib import Path

import pytest
from PySide6.QtCore import Qt

import winebench.window
from winebench.window.theme import DARK, LIGHT, theme

WINDOW = Path(winebench.window.__path__[0])

# The direction of the look, light and dark, as it was given.
ROLES = {
    "page": ("#FAF7F2", "#211D25"),
    "card": ("#FFFFFF", "#2B2630"),
    "ink": ("#2B2530", "#EFEAF2"),
    "muted": ("#6E6673", "#A79FAE"),
    "rule": ("#DDD5CB", "#453E4C"),
    "fruit": ("#8A2F55", "#E58BAE"),
    "leaf": ("#2F6B55", "#79C2A4"),
    "straw": ("#B77811", "#E0B25C"),
    "sky": ("#3B6EA5", "#85B3E6"),
    "wash": ("#F3E7EC", "#33242C"),
}
GROUNDS = ("page", "card", "wash", "sunken", "straw_wash")
TEXT_PAIRS = [
    *((ink, ground) for ink in ("ink", "muted", "fruit") for ground in GROUNDS),
    ("leaf", "page"),
    ("leaf", "card"),
    ("on_fruit", "fruit"),
    ("card", "sky"),
]


def luminance(colour):
    """Relative luminance as WCAG 2.2 defines it (https://www.w3.org/TR/WCAG22/)."""

    def linear(channel):
        share = channel / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(c) for c in (colour.red(), colour.green(), colour.blue()))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    """Contrast ratio as WCAG 2.2 defines it."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("role", ROLES)
def test_roles_are_as_designed(role):
    light, dark = ROLES[role]
    assert getattr(LIGHT, role).name().upper() == light
    assert getattr(DARK, role).name().upper() == dark


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("ink", "ground"), TEXT_PAIRS)
def test_text_has_a_contrast_of_four_and_a_half(palette, ink, ground):
    assert contrast(getattr(palette, ink), getattr(palette, ground)) >= 4.5


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("mark", ["fruit", "leaf", "straw", "sky", "muted"])
@pytest.mark.parametrize("ground", ["page", "card", "wash"])
def test_marks_of_a_step_have_a_contrast_of_three_also_on_the_chosen_row(palette, mark, ground):
    # WCAG 2.2, success criterion 1.4.11, non-text contrast.
    assert contrast(getattr(palette, mark), getattr(palette, ground)) >= 3.0


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["page", "card"])
def test_the_outline_of_a_field_has_a_contrast_of_three(palette, ground):
    assert contrast(palette.edge, getattr(palette, ground)) >= 3.0


def test_colours_are_written_in_the_palette_only():
    written = [
        path.name
        for path in WINDOW.rglob("*.py")
        if re.search(r"#[0-9A-Fa-f]{6}\b", path.read_text("utf-8"))
    ]
    assert written == ["theme.py"]


def test_choosing_dark_repaints_the_open_window(qtbot, raspberry):
    with qtbot.waitSignal(theme().changed):
        theme().choose(True)
    ground = raspberry.recipe.widget().grab().toImage().pixelColor(2, 400)
    assert ground == DARK.page
    theme().choose(False)


def test_the_system_going_dark_is_followed_unless_the_person_chose(qapp, monkeypatch):
    theme().choose(None)
    assert theme().palette == LIGHT
    # The platform without a screen has no scheme of its own, so its answer stands in here.
    monkeypatch.setattr("winebench.window.theme.system_is_dark", lambda: True)
    qapp.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert theme().palette == DARK
    theme().choose(False)
    qapp.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert theme().palette == LIGHT
