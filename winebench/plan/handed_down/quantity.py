"""How much a card makes where it does not say, and how many packets of yeast that takes."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.recipe import WaterLine, YeastLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.into_project import (
    card_basis,
    card_lines,
    card_project,
    usual_basis,
)
from winebench.plan.handed_down.shapes import CardReading
from winebench.plan.handed_down.without_amount import ONE_PACKET
from winebench.plan.typed.remarks import Remark, Way, written
from winebench.plan.work_out import recipe_outlook
from winebench.trade.ranges import NotKnown
from winebench.trade.yeast import packets as packets_for


def volume(reading: CardReading) -> Iterator[tuple[None, Remark]]:
    """Give the remark where the card has lines and does not say how much they make."""
    lines = card_lines(reading)
    if reading.basis is not None or reading.is_open or not lines:
        return
    made, usual = card_basis(reading), with_country(usual_basis(reading), reading.gallon)
    taken = made.text if made else usual
    its = f"its lines make {taken}, which" if made else taken
    way = Way(label=f"Write it in: makes {taken}", text=f"makes {taken}", apart=True)
    sentence = f"The card does not say how much it makes; {its} is taken."
    yield None, Remark(sentence=sentence, ways=(way,))
    if made is None and not any(isinstance(line, WaterLine) for line in lines):
        text = f"water to {usual}"
        yield (
            None,
            Remark(
                sentence="No water is on the card, and without it this is too thick to ferment.",
                ways=(Way(label=f"Put it in: {text}", text=text, apart=True),),
            ),
        )


def packets(reading: CardReading) -> Iterator[tuple[int, Remark]]:
    """Give how many packets such a must wants, where the card says yeast and no amount."""
    places = [
        place
        for place, row in enumerate(reading.rows)
        if isinstance(row.line, YeastLine) and any(r.sentence == ONE_PACKET for r in row.remarks)
    ]
    if not places or reading.is_open or card_basis(reading) is None:
        return
    project = card_project(reading)
    must = recipe_outlook(project).must
    litres, sg = must.liquid.value, must.gravity.value
    if litres is None or sg is None:
        return
    try:
        wanted = packets_for(litres, sg, project.room.celsius)
    except NotKnown:
        return
    if wanted > 1:
        words = reading.rows[places[0]].item.words.lower().strip(" .")
        words = words if words.endswith("yeast") else "yeast"
        yield (
            places[0],
            Remark(
                sentence=f"{litres:.1f} L at {sg:.3f} wants {wanted}: one for each 6 US gallons "
                "begun, twice that above 1.100 or in the cold (common practice).",
                ways=(written(f"{wanted} packets {words}"),),
            ),
        )
