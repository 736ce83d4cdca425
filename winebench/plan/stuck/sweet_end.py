"""A ferment with more sugar than its yeast can stand the alcohol of: where it may stop, and how
likely that is."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from winebench.plan.evidence import gravity_of_feed
from winebench.plan.figures import figure, workings
from winebench.plan.outlook import Figure
from winebench.plan.strength_now import strength_now, yeast_limit
from winebench.plan.stuck.keys import PITCH_BACK
from winebench.plan.stuck.standstill import accepted
from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT
from winebench.trade.gravity import solids_g_per_l_from_sg
from winebench.trade.sugar import HEXOSE_FROM_SUCROSE

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

BEYOND, SPREAD = 1.0, 1.0
"""How far yeast goes beyond what its packet says, % vol, and how much that varies (common
practice, from memory: the packet's figure is what it reaches in nearly every sound must)."""
HALF_PERCENT = 0.5
"""% vol by which the relations between gravity and strength differ (`abv-by-each-relation`)."""
HARDIEST = 18.0
"""What the packet of the hardiest yeast says it stands, % vol (common practice, from memory)."""
LIKELY = 0.5
NEARLY_ALL = 0.002
"""SG; less than that still to be fed is what was spilled."""


class SweetEnd(NamedTuple):
    """Where the yeast reaches its limit with sugar left."""

    limit: float
    """What the packet of the recipe's hardiest yeast stands, % vol."""
    strength: float
    """What all the sugar would make, % vol."""
    at: Figure
    """The gravity at which the strength reaches the limit, SG."""
    sg: float
    """The same, or the last reading where that is lower already."""
    to_feed: float
    """What the sugar that is still to be fed will add to the gravity, SG; else 0."""
    chance: float
    """Of stopping before the sugar is gone, 0 to 1, given how strong it is by now."""

    is_named: bool = True
    """Whether the recipe names its yeast; else the limit is that of any."""

    @property
    def likely(self) -> bool:
        """Return whether it stops sweet more likely than not."""
        return self.chance > LIKELY

    @property
    def words(self) -> str:
        """Return like "the yeast's packet stands 14 %, so it may stop sweet at about 1.028"."""
        will = "will probably" if self.likely else "may"
        stands = f"the yeast's packet stands {self.limit:g} %"
        if not self.is_named:
            stands = f"hardly any yeast stands more than {self.limit:g} %"
        return f"{stands}, so it {will} stop sweet at about {self.sg:.3f}"


def sweet_end(batch: Batch) -> SweetEnd | None:
    """Return where the recipe's yeast may stop; None where it stands all the sugar, or is done.

    After a restart nobody knows which yeast works on, so nothing is said of its limit.
    """
    named, strong = yeast_limit(batch), _strength(batch)
    limit = HARDIEST if named is None else named
    if strong is None or round(strong, 1) <= limit:
        return None
    if accepted(batch) is not None or {"bottle", "sweeten"} & batch.actions.keys():
        return None
    if PITCH_BACK in batch.ticks:
        return None
    last, dry = batch.last_sg, batch.dry_gravity
    og = whole_gravity(batch)
    at = og - limit / strong * (og - dry)
    if at <= batch.highest_end or (last is not None and last <= batch.highest_end):
        return None
    to_feed = og - batch.original_gravity - gravity_of_feed(batch) if batch.fed else 0.0
    to_feed = to_feed if to_feed > NEARLY_ALL else 0.0
    sg = at if last is None or to_feed else min(at, last)
    chance = chance_of_stopping(limit, strong, strength_now(batch).value or 0.0)
    at_limit = _figure(og, dry, limit, strong)
    return SweetEnd(limit, strong, at_limit, sg, to_feed, chance, is_named=named is not None)


def _strength(batch: Batch) -> float | None:
    """Return what all the sugar would make, % vol; of a heap of it what its water dissolves."""
    told, sg = batch.must.strength.value, batch.must.gravity_whole.value
    if told is not None or sg is None:
        return told
    return solids_g_per_l_from_sg(sg) * HEXOSE_FROM_SUCROSE / EU_SUGAR_PER_PERCENT


def whole_gravity(batch: Batch) -> float:
    """Return the gravity of the must with the sugar that is fed later, SG."""
    return batch.must.gravity_whole.value or batch.original_gravity


def chance_of_stopping(limit: float, strong: float, made: float) -> float:
    """Return the chance that yeast of that limit stops before `strong` % vol; it stands at `made`.

    The strength at which it stops is taken as normal around a percent above the packet's figure.
    """
    if made >= strong:
        return 0.0
    beyond, still = (_tail((percent - limit - BEYOND) / SPREAD) for percent in (strong, made))
    return 1.0 - beyond / still


def _tail(score: float) -> float:
    """Return the normal distribution's share above that score, never quite nought."""
    return max(math.erfc(score / math.sqrt(2.0)) / 2.0, 1e-300)


def _figure(og: float, dry: float, limit: float, strong: float) -> Figure:
    value, high, low = (
        max(og - min(percent / strong, 1.0) * (og - dry), dry)
        for percent in (limit, limit - HALF_PERCENT, limit + HALF_PERCENT)
    )
    work = workings(
        "sweet-end", "must - its fall to dry x limit of the packet / strength of all its sugar",
        f"{value:.4f}", "SG", "in proportion; relations differ by half a percent",
        ("must", f"{og:.3f}", "SG"), ("dry", f"{dry:.3f}", "SG"),
        ("packet", f"{limit:g}", "% vol"), ("all sugar", f"{strong:.1f}", "% vol"),
    )  # fmt: skip
    return figure(value, "SG", 3, low=low, high=high, workings=work)
