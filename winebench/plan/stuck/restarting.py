"""What the steps of a restart share: the starter's size, its doses, and the readings they want.

Sizes and waits are common practice: a starter is doubled with the wine until it is about a tenth
of it, so that its yeast comes into the alcohol by degrees.
"""

from __future__ import annotations

import math
from datetime import datetime
from typing import TYPE_CHECKING

from winebench.plan.days import settled
from winebench.plan.readings import Seen
from winebench.plan.strength_now import strength_now, yeast_limit
from winebench.plan.stuck.keys import FEED, STARTER, WARM
from winebench.plan.wanted import YEAST_MARGIN_PERCENT

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

MOVES = "The gravity moves, or has reached its end."
WAIT_DAYS = 3
"""After warming and rousing (common practice)."""
LATEST_DAYS = 10
"""After the standstill was found; then spoilage may take the sugar (common practice)."""
STARTER_L = 0.25
SHARE_OF_WINE = 0.1
MOST_DOSES = 4
FEED_DAYS = 4
"""A cup to start with, doubled over one to four days to a tenth of the wine (common practice)."""


def doses(batch: Batch) -> int:
    """Return how often the starter is doubled before it is a tenth of the wine: 1 to 4 times."""
    litres = batch.recipe.must.liquid.value or 0.0
    wanted = max(litres * SHARE_OF_WINE / STARTER_L, 2.0)
    return min(math.ceil(math.log2(wanted) - 1e-9), MOST_DOSES)


def doses_given(batch: Batch) -> int:
    """Return how many doses of wine the newest starter has had."""
    made = batch.last_time(STARTER)
    ticks = batch.actions.get(FEED, [])
    return 0 if made is None else sum(settled(tick.at) > made for tick in ticks)


def litres_text(dose: int) -> str:
    """Return how much starter there is after that many doses, like "0.5 L"."""
    return f"{STARTER_L * 2**dose:.2f}".rstrip("0").rstrip(".") + " L"


def waited(batch: Batch) -> datetime | None:
    """Return when the three days after warming and rousing are over; None before it was done."""
    roused = batch.last_time(WARM)
    return batch.clock.days_after(roused, WAIT_DAYS) if roused else None


def read_after_waiting(batch: Batch) -> Seen | None:
    """Return the first gravity read once those three days were over, or None."""
    until = waited(batch)
    if until is None:
        return None
    return next((seen for seen in batch.ferment if seen.at >= until), None)


def at_its_limit(batch: Batch) -> bool:
    """Return whether the wine is about as strong as the recipe's yeast stands."""
    limit, made = yeast_limit(batch), strength_now(batch).value
    return limit is not None and made is not None and made >= limit - YEAST_MARGIN_PERCENT
