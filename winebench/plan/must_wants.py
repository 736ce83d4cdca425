"""The must's figures beside what is wanted of each, on the bars that both are drawn on."""

from __future__ import annotations

from typing import NamedTuple

from winebench.plan.balance import Balance
from winebench.plan.outlook import Figure, Want
from winebench.plan.wanted import Wanted, strength_at
from winebench.trade.nutrient import nitrogen_need_mg_per_l


class Actual(NamedTuple):
    """The must's figures that something is wanted of."""

    gravity: Figure
    acidity: Figure
    tannin: Figure
    strength: Figure
    nitrogen: Figure
    drink: Figure


def wants(must: Balance, aim: Wanted, actual: Actual, *, fed: bool = False) -> tuple[Want, ...]:
    """Return each figure with what is wanted: sugar, acid, tannin, strength, and the rest.

    `fed`: some sugar of the must is kept back, to be fed later.
    """
    low, high = (round(strength_at(must, sg), 1) for sg in (aim.gravity_low, aim.gravity_high))
    need = max(nitrogen_need_mg_per_l(min(max(must.brix, 10.0), 30.0)), 200.0)
    return (
        Want(key="gravity", name="Gravity, all fed" if fed else "Gravity", actual=actual.gravity,
             want_low=aim.gravity_low, want_high=aim.gravity_high, scale_low=1.050,
             scale_high=1.130,
             want_text=_wanted_text(f"{aim.gravity_low:.3f}", f"{aim.gravity_high:.3f}")),
        Want(key="acidity", name="Acidity g/L", actual=actual.acidity, want_low=aim.acid_low,
             want_high=aim.acid_high, scale_low=0.0, scale_high=15.0,
             want_text=_wanted_text(f"{aim.acid_low:g}", f"{aim.acid_high:g}")),
        Want(key="tannin", name="Tannin g/L", actual=actual.tannin, want_low=aim.tannin_low,
             want_high=aim.tannin_high, scale_low=0.0, scale_high=1.5,
             want_text=_wanted_text(f"{aim.tannin_low:g}", f"{aim.tannin_high:g}")),
        Want(key="strength", name="Strength %", actual=actual.strength, want_low=low,
             want_high=high, scale_low=5.0, scale_high=18.0,
             want_text=_wanted_text(f"{low:.1f}", f"{high:.1f}")),
        Want(key="nitrogen", name="Nitrogen mg/L", actual=actual.nitrogen, want_low=150.0,
             want_high=need, scale_low=0.0, scale_high=400.0, want_text=f"want 150–{need:.0f}"),
        Want(key="drink", name="Drink from", actual=actual.drink, want_low=None,
             want_high=aim.drink_months, scale_low=0.0, scale_high=36.0,
             want_text=f"want by {aim.drink_months:g} months"),
    )  # fmt: skip


def _wanted_text(low: str, high: str) -> str:
    return f"want {low}" if low == high else f"want {low}–{high}"
