"""What a difference does to the wine, in the words of the trade.

Each sentence speaks of this batch against that one. Nearly all are common practice; a published
source is named where one stands behind it.
"""

from __future__ import annotations

from typing import NamedTuple

from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT

COMMON = "common practice"


class Effect(NamedTuple):
    """What more and less of a thing do in this batch, and who says so."""

    more: str
    less: str
    source: str = COMMON

    def words(self, way: int) -> str:
        """Return what it does where this batch has more (1) or less (-1)."""
        return self.more if way > 0 else self.less


def _same(words: str) -> Effect:
    """Return the effect of a choice, which has no more and no less."""
    return Effect(words, words)


_STRONGER = Effect(
    f"Stronger if it ends as dry: each {EU_SUGAR_PER_PERCENT} g/L of sugar make one percent.",
    f"Weaker if it ends as dry: each {EU_SUGAR_PER_PERCENT} g/L of sugar make one percent.",
    "Reg. (EU) usage as in the French order of 14 Sept 2011, Annex IV",
)
_SLOW = Effect(
    "Slower: cooler, hungrier or weaker yeast. It keeps more scent; a drag invites spoilage.",
    "Faster, usually from warmth: it drives off some of the scent.",
)

EFFECTS: dict[str, Effect] = {
    "fruit": Effect(
        "More taste, colour and acid; it wants longer to grow soft.",
        "Lighter and ready sooner; thin where the fruit no longer carries it.",
    ),
    "water": Effect(
        "The fruit is stretched further: thinner, and less sharp.",
        "The fruit is stretched less: fuller, and sharper.",
    ),
    "sugar": _STRONGER,
    "feed": Effect(
        "More of the sugar comes later: an easier start for the yeast, and a longer ferment.",
        "Less of the sugar comes later: the yeast starts in a heavier must.",
    ),
    "acid": Effect(
        "Sharper and fresher; sulfite protects better at the lower pH.",
        "Softer; flat where there is too little, and sulfite protects less.",
    ),
    "tannin": Effect(
        "More grip, and it keeps longer; bitter where there is too much.",
        "Softer, with less to keep it.",
    ),
    "enzyme": Effect(
        "More juice out of the fruit, and less haze.",
        "Less juice out of the fruit, and a haze that may stay.",
    ),
    "nutrient": Effect(
        "A quicker, cleaner ferment; what the yeast leaves of it feeds spoilage.",
        "A slower ferment; short of nitrogen, the yeast may stick or smell of egg.",
    ),
    "sulfite": Effect(
        "Better kept from wild yeast and browning; a slower start, and people with asthma may "
        "react to it.",
        "A quicker start; less kept from wild yeast and browning.",
    ),
    "sorbate": Effect(
        "Safer from a new ferment once it is sweet; much of it can be tasted.",
        "If it is sweet it may ferment again, and then bottles burst.",
    ),
    "fining": Effect(
        "Clear sooner; too much strips taste and colour.", "Clear later, with all of its taste."
    ),
    "form": _same("Frozen fruit gives juice and colour sooner than fresh; puree leaves more lees."),
    "yeast": _same("Another yeast: how far and how fast it goes is in its packet's numbers."),
    "sweetness": Effect(
        "Sweeter, which covers acid; it needs sorbate and sulfite to stay still.",
        "Drier, so that its acid shows more.",
    ),
    "juice": Effect("Riper fruit: less sugar to add.", "Less ripe fruit: more sugar to add."),
    "juice-acid": Effect(
        "Sharper fruit: more water, or less acid to add.", "Softer fruit: less water, or more acid."
    ),
    "juice-ph": Effect(
        "The higher pH makes each milligram of sulfite protect less.",
        "The lower pH makes each milligram of sulfite protect more.",
    ),
    "gravity": _STRONGER,
    "strength": Effect(
        "Warmer, and it keeps longer; the fruit shows less.",
        "Lighter; below about 10 % a wine keeps poorly.",
    ),
    "acidity": Effect(
        "Sharper; it asks for sweetness or for time.", "Softer; flat where there is too little."
    ),
    "drink": Effect("It wants longer in the bottle.", "Ready sooner; it may also fade sooner."),
    "drink-wanted": Effect("Wanted to be kept longer.", "Wanted to be drunk sooner."),
    "nitrogen": Effect(
        "A quicker ferment; what the yeast leaves feeds spoilage.",
        "A slower ferment; below 150 mg/L it may stick or smell of egg.",
    ),
    "og": _STRONGER,
    "to-lift": _SLOW,
    "to-dry": _SLOW,
    "warmest": Effect(
        "Warmer: quicker, more colour, less scent; above 30 °C the yeast suffers.",
        "Cooler at its warmest: slower, and more of the scent stays.",
    ),
    "coolest": Effect(
        "Never as cool: less risk of a standstill.",
        "Cooler: more scent; below 15 °C many yeasts stand still.",
    ),
    "final": Effect(
        "Ended higher: fuller, or with sugar left that can ferment again.", "Ended drier."
    ),
    "total-sulfite": Effect(
        "Better kept from browning; nearer to being smelled, and to the limits of local rules.",
        "Less of it to smell; it browns sooner.",
    ),
    "lost": Effect(
        "Fewer bottles; each racking also lets in air.", "More bottles, and less air met it."
    ),
}


INSTEAD = {
    "fruit": "Another fruit, with a taste, colour and acid of its own.",
    "sugar": "Another sugar: syrups and honey bring water and a taste of their own.",
}
"""What it does where one batch has none of a thing but another of its kind."""


def effect(key: str, way: int, *, instead: bool = False) -> tuple[str, str]:
    """Return what the difference does and who says so; both empty where the trade is silent.

    `instead` says that one batch has another thing of that kind in its place.
    """
    if instead:
        return (INSTEAD[key], COMMON) if key in INSTEAD else ("", "")
    found = EFFECTS.get(key)
    return (found.words(way), found.source) if found else ("", "")
