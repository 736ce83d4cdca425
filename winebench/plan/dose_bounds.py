"""What a dose noted with a tick may come to: by what was given before, and by what is usual."""

from __future__ import annotations

from collections.abc import Sequence

from winebench.catalog.additives import additives
from winebench.plan.days import MONTHS
from winebench.plan.doses_given import Given
from winebench.plan.malolactic_choice import GERANIUMS
from winebench.plan.outlook import Bound
from winebench.trade.sorbate import LIMITS_MG_PER_L as SORBIC_LIMITS
from winebench.trade.sorbate import SORBIC_SHARE
from winebench.trade.sulfite import SO2_SHARE
from winebench.trade.sulfite_running import LIMITS_MG_PER_L, free_so2_after_mg_per_l

MOST_SO2_MG_PER_L = LIMITS_MG_PER_L["EU-fruit-wine"]
HARMFUL_SO2_MG_PER_L = LIMITS_MG_PER_L["US"]
"""The strictest limit for wine of other fruit, from which on a reason is asked for; and the loosest
limit for wine on sale, beyond which no one dose is taken (sources beside the limits)."""
MOST_SORBIC_MG_PER_L = SORBIC_LIMITS["OIV"]
MOST_FREE_MG_PER_L = 50.0
"""More free sulfite is tasted and smelt; a wine that wants more wants acid (common practice)."""
FAR_TOO_FREE_MG_PER_L = 2.0 * MOST_FREE_MG_PER_L
"""From here on no more goes in at all (common practice)."""
FAR_BEYOND_USUAL = 5.0
"""Times the usual most, from which on a dose is likely a slip (common practice)."""
ROUNDED = 0.05
"""g, since doses are told to a tenth."""


def given_words(given: Sequence[Given], what: str = "") -> str:
    """Return like "with the 50 mg/L given on 2 October"; of several doses the last day."""
    last = given[-1].at
    total = sum(one.mg_per_l for one in given)
    until = "on" if len(given) == 1 else "until"
    return f"with the {total:.0f} mg/L{what} given {until} {last.day} {MONTHS[last.month - 1]}"


def sulfite_bounds(
    given: Sequence[Given],
    litres: float,
    per: float,
    rounded: float = 0.0,
    share: float = SO2_SHARE["potassium"],
) -> tuple[Bound, ...]:
    """Return the bounds of sulfite, with what was given before.

    `per` is what one of the field's unit brings, mg/L of SO2; `rounded` is left free, in its unit;
    `share` is that of SO2 in what is weighed.
    """
    before = sum(one.mg_per_l for one in given)
    sums = f"{given_words(given)}, this makes {{}} mg/L added" if given else ""
    in_grams = MOST_SO2_MG_PER_L * litres / 1000.0 / share
    told = "" if given else f" ({in_grams:.1f} g in {litres:.1f} L)"
    alone = Bound(
        text=f"That much sulfite is over {HARMFUL_SO2_MG_PER_L:.0f} mg/L in {litres:.1f} L"
        ", which can harm who drinks it: check the amount.",
        most=HARMFUL_SO2_MG_PER_L / per + rounded,
        never=True,
    )
    harmful = Bound(
        text=f"no more sulfite in all than {HARMFUL_SO2_MG_PER_L:.0f} mg/L, beyond which it can "
        "harm who drinks it",
        most=max(HARMFUL_SO2_MG_PER_L - before, 0.0) / per + rounded,
        sums=sums,
        before=before,
        per=per,
    )
    limit = Bound(
        text=f"no more sulfite than {MOST_SO2_MG_PER_L:.0f} mg/L{' in all' * bool(given)}{told}",
        most=max(MOST_SO2_MG_PER_L - before, 0.0) / per + rounded,
        sums=sums,
        before=before,
        per=per,
    )
    return (alone, harmful, limit) if given else (alone, limit)


def harm_in_all(given: Sequence[Given]) -> str:
    """Return what has to be met where the sulfite given in all can harm who drinks it, else ""."""
    total = sum(one.mg_per_l for one in given)
    if total <= HARMFUL_SO2_MG_PER_L:
        return ""
    return (
        f"the sulfite measured, no more than {HARMFUL_SO2_MG_PER_L:.0f} mg/L in all: what is noted "
        f"makes {total:.0f}, which can harm who drinks it"
    )


def free_bounds(free: Given, per: float, rounded: float = 0.0) -> tuple[Bound, ...]:
    """Return the bound of sulfite on top of free sulfite that was read; `per` as above."""
    if free.mg_per_l >= FAR_TOO_FREE_MG_PER_L:
        room, stays = 0.0, 1.0
    else:
        stays = free_so2_after_mg_per_l(0.0, 1.0).figure
        room = max(MOST_FREE_MG_PER_L - free.mg_per_l, 0.0) / stays
    return (
        Bound(
            text=f"no more free sulfite than {MOST_FREE_MG_PER_L:.0f} mg/L, from where it is "
            "tasted",
            most=room / per + rounded,
            sums=f"with the {free.mg_per_l:.0f} mg/L free read on {free.at.day} "
            f"{MONTHS[free.at.month - 1]}, this leaves about {{}} mg/L free",
            before=free.mg_per_l,
            per=stays * per,
        ),
    )


def sorbate_bounds(
    given: Sequence[Given], litres: float, *, softened: bool = False
) -> tuple[Bound, ...]:
    """Return the bounds of potassium sorbate in g, with what was given before.

    None at all in a wine that is `softened` by malolactic bacteria.
    """
    per = SORBIC_SHARE * 1000.0 / litres
    before = sum(one.mg_per_l for one in given)
    grams = MOST_SORBIC_MG_PER_L / per
    limit = f"{MOST_SORBIC_MG_PER_L:.0f} mg/L of sorbic acid"
    none = Bound(text=f"no sorbate in this wine: {GERANIUMS}", most=0.0)
    return (
        *((none,) if softened else ()),
        Bound(
            text=f"That much sorbate is over twice the limit of {limit} ({grams:.1f} g in "
            f"{litres:.1f} L): check the amount.",
            most=2.0 * grams + ROUNDED,
            never=True,
        ),
        Bound(
            text=f"no more sorbate in all than {limit}"
            if given
            else f"no more sorbate than {grams:.1f} g ({limit})",
            most=max(MOST_SORBIC_MG_PER_L - before, 0.0) / per + ROUNDED,
            sums=f"{given_words(given, ' of sorbic acid')}, this makes {{}} mg/L" if given else "",
            before=before,
            per=per,
        ),
    )


def usual_bounds(key: str, litres: float | None) -> tuple[Bound, ...]:
    """Return that an additive's dose in g is no slip of the decimal point; none where no dose is
    usual."""
    additive = additives().get(key)
    if additive is None or not additive.usual_most_g_per_l or not litres:
        return ()
    usual = additive.usual_most_g_per_l * litres
    most = FAR_BEYOND_USUAL * usual
    return (
        Bound(
            text=f"no more {additive.name.lower()} than {most:.3g} g, {FAR_BEYOND_USUAL:.0f} times "
            f"the usual most in {litres:.1f} L",
            most=most,
            usual=usual,
        ),
    )
