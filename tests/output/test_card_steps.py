"""The steps on the batch card: in the order of their days, what has none yet at the end."""

import msgspec

from tests.output import batches, pdf
from winebench.output.card import card_pdf

BY_THEIR_DAYS = ("sulfite-must", "pitch", "stir", "transfer", "bottle", "declare-stable")
"""Done on 1 and 2 October; on 6 and 8 October and in January; with no date."""


def test_steps_stand_in_the_order_of_their_days(tmp_path):
    outlook = batches.outlook()
    turned = msgspec.structs.replace(outlook, steps=tuple(reversed(outlook.steps)))
    path = tmp_path / "card.pdf"
    card_pdf(path, batches.project(), turned, "A4")
    words = pdf.words_of(path)
    steps = words[words.index("Steps") :]
    names = {one.key: one.name for one in outlook.steps}
    places = [steps.index(names[key]) for key in BY_THEIR_DAYS]
    assert places == sorted(places), steps
