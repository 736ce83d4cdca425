"""Number fields read a comma and a point as the decimal sign, whatever the locale.

The trap: Qt's own number boxes read "1.090" as 1090 under German, French and Polish, and
"1,090" as 1090 under English. These fields take text and read it themselves.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QLocale
from PySide6.QtTest import QTest

from winebench.model.edits import Change
from winebench.plan.typed.numbers import gravity_pair, number, number_pair
from winebench.units import Gravity
from winebench.window.parts.field import Binding, Field

LOCALES = ("C", "en_US", "de_DE", "fr_FR", "pl_PL")


@pytest.fixture(params=LOCALES)
def locale(request):
    before = QLocale()
    QLocale.setDefault(QLocale(request.param))
    yield request.param
    QLocale.setDefault(before)


def typed(qtbot, read, text):
    """Return what the last edit carries when the text is typed into a bound field."""
    field = Field("a figure")
    qtbot.addWidget(field)
    edits = []
    field.bind(Binding("place", "type", read, lambda value: Change(label="x", fields={"v": value})))
    field.edit_wanted.connect(edits.append)
    QTest.keyClicks(field, text)
    assert field.text() == text
    assert field.refusal == ""
    return edits[-1].edits[0].fields["v"]


@pytest.mark.parametrize("text", ["1.090", "1,090"])
def test_a_gravity_reads_the_same_under_every_locale(qtbot, locale, text):
    assert typed(qtbot, Gravity, text).value == 1.090


@pytest.mark.parametrize("text", ["22.5", "22,5"])
def test_a_number_reads_the_same_under_every_locale(qtbot, locale, text):
    assert typed(qtbot, number(0.0, 100.0), text) == 22.5
    assert typed(qtbot, Gravity, f"{text} brix").value == 22.5


@settings(deadline=None, max_examples=200)
@given(st.integers(0, 9999), st.integers(0, 3), st.sampled_from(".,"), st.sampled_from(LOCALES))
def test_every_number_reads_as_written_whatever_its_sign_and_locale(digits, places, sign, name):
    before = QLocale()
    QLocale.setDefault(QLocale(name))
    try:
        written = f"{digits / 10**places:.{places}f}".replace(".", sign)
        assert number(0.0, 10_000.0)(written) == pytest.approx(digits / 10**places, abs=1e-12)
    finally:
        QLocale.setDefault(before)


def test_both_ends_of_a_range_may_have_commas():
    assert number_pair(0.0, 30.0)("5,5-7,5") == (5.5, 7.5)
    assert number_pair(0.0, 30.0)("5.5 to 7.5") == (5.5, 7.5)
    low, high = gravity_pair("1,088–1,094")
    assert (low.value, high.value) == (1.088, 1.094)


@pytest.mark.parametrize(
    ("read", "text", "said"),
    [
        (Gravity, "1096", 'Did you mean "1.096"?'),
        (Gravity, "0.0998", 'Did you mean "0.998"?'),
        (Gravity, "24", 'Did you mean "24 brix"?'),
        (number(2.0, 6.0), "36", "outside 2 to 6"),
        (number_pair(0.0, 30.0), "7-5", "starts above where it ends"),
        (gravity_pair, "1.090-22 brix", "mixes SG and °Brix"),
    ],
)
def test_a_slip_is_asked_about_beside_the_field(qtbot, read, text, said):
    field = Field("a figure")
    qtbot.addWidget(field)
    kept = []
    field.bind(Binding("place", "type", read, lambda _value: pytest.fail("must not edit")))
    field.edit_wanted.connect(kept.append)
    field.setText(text)
    field.textEdited.emit(text)
    assert said in field.refusal
    assert field.accessibleDescription() == field.refusal
    (draft,) = kept[-1].edits
    assert (draft.place, draft.text) == ("place", text)
