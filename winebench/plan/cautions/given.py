"""Sulfite and sorbate that the log says were given, and the limits of wine on sale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from winebench.model.project import Project
from winebench.plan.compose import RecipeOutlook
from winebench.plan.dose_bounds import (
    HARMFUL_SO2_MG_PER_L,
    MOST_SO2_MG_PER_L,
    MOST_SORBIC_MG_PER_L,
    ROUNDED,
)
from winebench.plan.doses_given import Given, sorbate_given, sulfite_given
from winebench.plan.malolactic_choice import GERANIUMS, softening
from winebench.plan.outlook import Caution
from winebench.trade.sorbate import SORBIC_SHARE
from winebench.trade.sulfite import SO2_SHARE


def given_cautions(project: Project, recipe: RecipeOutlook) -> Iterator[Caution]:
    """Give what is said where more was given in all than wine on sale may hold."""
    litres = recipe.bottles.finished.value
    if not litres:
        return
    sulfite = _sum(sulfite_given(project, recipe))
    if sulfite > MOST_SO2_MG_PER_L + ROUNDED * SO2_SHARE["potassium"] * 1000.0 / litres:
        harms = sulfite > HARMFUL_SO2_MG_PER_L
        yield Caution(
            key="sulfite-given",
            severity="hold" if harms else "caution",
            gates="bottle" if harms else "",
            about="stabilise",
            sentence=f"The sulfite given makes {sulfite:.0f} mg/L in all: more than the "
            f"{MOST_SO2_MG_PER_L:.0f} that fruit wine on sale may hold in the EU"
            f"{f', and the {HARMFUL_SO2_MG_PER_L:.0f} of the US' if harms else ''}.",
            detail="Look over the amounts noted. If they are right, give no more, have it "
            "measured before anybody drinks it, and keep it from people with asthma.",
        )
    sorbic = _sum(sorbate_given(project, recipe))
    if sorbic and softening(project):
        yield Caution(
            key="sorbate-and-malolactic",
            severity="caution",
            about="stabilise",
            sentence=f"Sorbate is in it, and it was to be softened: {GERANIUMS}.",
            detail="Nothing takes it out again. Keep the sulfite up, so that they do not work, and "
            "smell it before it is bottled.",
        )
    if sorbic > MOST_SORBIC_MG_PER_L + ROUNDED * SORBIC_SHARE * 1000.0 / litres:
        yield Caution(
            key="sorbate-given",
            severity="caution",
            about="stabilise",
            sentence=f"The sorbate given makes {sorbic:.0f} mg/L of sorbic acid in all: more than "
            f"the {MOST_SORBIC_MG_PER_L:.0f} that wine on sale may hold in the EU.",
            detail="Look over the amounts noted, and give no more.",
        )


def _sum(given: Sequence[Given]) -> float:
    return sum(one.mg_per_l for one in given)
