"""What was written down with a tick stands on the card by its label, as typed and in its unit."""

from tests.output import pdf
from tests.plan.damson import IN_GLASS, at, damson, ticked
from winebench.output.card import card_pdf
from winebench.plan.work_out import outlook


def test_amounts_are_on_the_card_as_typed_and_in_their_unit(tmp_path):
    noted = {"mg-per-l": "3 tablets", "sorbate": "1/2 tsp", "ph": "3.3"}
    project = damson(*IN_GLASS, ticked("stabilise", "2026-11-22T10:00", **noted))
    seen = outlook(project, at("2026-11-22T12:00"))
    path = tmp_path / "card.pdf"
    card_pdf(path, project, seen, "A4")
    words = pdf.words_of(path)
    # 1.32 g of tablets hold 57.6 % SO2 (molar masses), in the wine that is left.
    mg = 3 * 0.44 * 2 * 64.066 / 222.326 * 1000 / seen.bottles.finished.value
    assert f"Sulfite: 3 tablets ({mg:.0f} mg/L)" in words
    assert "Sorbate: 1/2 tsp (1.6 g)" in words
    assert "mg-per-l" not in words
