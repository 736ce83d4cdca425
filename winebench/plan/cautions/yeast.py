"""Cautions about the yeast: whether there is any, whether enough, and what it stands."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.edits import PutLine, changed
from winebench.model.project import Project
from winebench.model.recipe import YeastLine
from winebench.plan.lines import packets_of, usual_packets
from winebench.plan.must import Worked
from winebench.plan.outlook import Caution, Repair
from winebench.plan.scale import made_l
from winebench.plan.wanted import YEAST_MARGIN_PERCENT, strength
from winebench.trade.ranges import NotKnown
from winebench.trade.yeast import PACKET_G, packets
from winebench.units import Amount


def yeast_cautions(project: Project, worked: Worked, factor: float) -> Iterator[Caution]:
    """Give what is to know of the recipe's yeast in this must."""
    lines = [line for line in project.recipe.lines if isinstance(line, YeastLine)]
    if not lines:
        yield Caution(key="no-yeast", severity="caution", about="must",
                      sentence="There is no yeast on the recipe.",
                      detail="Add a packet; its own numbers decide what it can do.")  # fmt: skip
    strong = round(strength(worked.whole), 1)  # as it is shown
    for line in lines:
        if strong > line.tolerance_percent - YEAST_MARGIN_PERCENT:
            over = strong > line.tolerance_percent
            yield Caution(
                key="yeast-too-weak",
                severity="caution" if over else "note",
                about=line.id,
                sentence=f"The sugar makes {strong:.1f} %, {'over' if over else 'close to'} the "
                f"{line.tolerance_percent:g} % that the packet stands: it may stop sweet.",
                detail=f"Keep {YEAST_MARGIN_PERCENT:g} % in hand: less sugar, or a stronger yeast.",
            )
        if not line.coolest.celsius <= project.room.celsius <= line.warmest.celsius:
            yield Caution(
                key="room-for-yeast",
                severity="caution",
                about=line.id,
                sentence=f"The room is {project.room.text}; this yeast likes {line.coolest.text} "
                f"to {line.warmest.text}.",
                detail="Cold is slow, warm is hasty; move it or choose another.",
            )
    if len(lines) == 1:
        litres = made_l(project, worked.whole.litres * factor)
        yield from _too_few(project, lines[0], litres, worked.start.sg)


def _too_few(project: Project, line: YeastLine, litres: float, sg: float) -> Iterator[Caution]:
    """Give the note that a hard must wants more yeast than the recipe's, with its repair."""
    try:
        wanted = packets(litres, sg, project.room.celsius)
    except NotKnown:
        return
    if packets_of(project, line, litres) * line.packet_g >= wanted * PACKET_G - 1e-6:
        return
    own = 2 * usual_packets(line, project.recipe.basis.litres(project.gallon))
    more = f"{own} packets"
    edit = PutLine(label="take more yeast", line=changed(line, amount=Amount(more)))
    yield Caution(
        key="little-yeast",
        severity="note",
        about=line.id,
        sentence=f"For {litres:.0f} L at {sg:.3f} and {project.room.text}, usual is "
        f"{wanted} packets of {PACKET_G:g} g.",
        detail="Twice as many above 1.100 or below 15 °C, where yeast has it hard (common "
        "practice); the packet's own words go before it.",
        repairs=(Repair(label=f"Take {more}", edit=edit),),
    )
