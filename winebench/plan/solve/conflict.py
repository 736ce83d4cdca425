"""Why targets cannot be met together: the two that fight, by how much, and what would do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import NamedTuple

from winebench.plan.figures import grams_text, litres_text, with_country
from winebench.plan.kitchen import in_pounds, poured
from winebench.plan.portions import WATER_KG_PER_L, g_per_litre, is_strained
from winebench.plan.solve.mix import Mix, brix
from winebench.plan.solve.parts import additive_name, sugar_name
from winebench.plan.solve.question import Question
from winebench.plan.solve.search import CLOSE, MOVES, Tried, first_possible
from winebench.plan.solve.shapes import NAMES, Target
from winebench.plan.solve.targets import value_text
from winebench.plan.written_like import BY_JUG, size_like
from winebench.trade.ageing import (
    LIGHT_MONTHS,
    MONTHS_A_G_OF_TANNIN,
    SHARP_G_PER_L,
    STRONG_PERCENT,
)

_TOLD_FIRST: tuple[Target, ...] = (
    "drink", "acidity", "tannin", "strength", "gravity", "fruit", "volume",
)  # fmt: skip
"""Of two that fight, the one that is said to miss; the other is where it does."""
_EXTRAS = ("fruit", "volume", "acid", "tannin", "sugar", "water")
_MOST_WAYS = 3
_LEAST_FRUIT_KG, _LEAST_KG = 0.01, 1e-5
"""kg in a litre: less fruit than that makes no fruit wine, less of a powder nobody weighs."""
_MOST_TIMES = 10.0
"""Of the liquid there is: nobody makes so much more to meet a target."""
_HARDLY_WET_BRIX = 55.0
"""More sugar than a must can have; the water was not written down yet."""


class _Fight(NamedTuple):
    """Targets that are missed, each with what it reads where the others stand as wanted."""

    missed: dict[Target, float]
    met: tuple[Target, ...] = ()
    """Targets that stand as wanted there although giving one of them up alone helps nothing."""
    without: str = ""
    """What there would have to be less than nothing of, and is none of now."""


def why_not(asked: Question, on_paper: Tried | None) -> str:
    """Return which two fight and by how much; `on_paper` needs less than nothing of something."""
    too_long = _asks_too_long(asked)
    if too_long:
        return too_long
    fight = _short_of(asked, on_paper) if on_paper else None
    if fight is None or not fight.missed:
        fight = _too_many(asked)
    if not fight.missed:
        return _nothing_does(asked)
    first = next(
        (key for key in _TOLD_FIRST if key in fight.missed and fight.without in MOVES[key]),
        next(key for key in _TOLD_FIRST if key in fight.missed),
    )
    others = [key for key in reversed(_TOLD_FIRST) if key in fight.missed and key != first]
    others.sort(key=lambda key: key == "volume" and asked.by_mark)  # nobody asked for that one
    if fight.met:
        others = list(fight.met)
    other = others[0] if others else None
    ways = [way for way in _ways(asked) if way.key not in (first, other)]
    met = [] if fight.met else [_at(asked, key, fight.missed[key]) for key in others[:1]]
    met += [way.words for way in ways][: _MOST_WAYS - len(met)]
    against = NAMES[other] if other else _fixed(asked, first, fight.without, ways)
    said = _told(asked, fight, first, other)
    if other is None or (other == "volume" and asked.by_mark):
        peace = f"ask for another {NAMES[first]}, or let the {against} change"
    else:
        peace = f"hold the {NAMES[first]} or the {against}, not both"
    return f"{said}: {peace}.{_met(met)}"


def _asks_too_long(asked: Question) -> str:
    """Return what fights with the time to drink whatever else the wine is made of; else ""."""
    wanted = asked.held.get("drink")
    asks: dict[Target, float] = {
        "tannin": MONTHS_A_G_OF_TANNIN * asked.held.get("tannin", 0.0),
        "acidity": asked.held.get("acidity", 0.0) - SHARP_G_PER_L,
        "strength": asked.held.get("strength", 0.0) - STRONG_PERCENT,
    }
    key = max(asks, key=lambda each: asks[each])
    months = LIGHT_MONTHS + asks[key]
    if wanted is None or months <= wanted + CLOSE["drink"]:
        return ""
    return (
        f"{NAMES[key].capitalize()} {value_text(key, asked.held[key])} alone wants "
        f"{value_text('drink', months)}, not the {value_text('drink', wanted)} wanted: hold the "
        f"{NAMES['drink']} or the {NAMES[key]}, not both."
    )


def _short_of(asked: Question, on_paper: Tried) -> _Fight | None:
    """Return the fight where some amount would have to be less than nothing."""
    kilos = on_paper.kilos
    none_of = min(on_paper.free, key=lambda key: kilos[key], default="")
    if not none_of or kilos[none_of] >= 0:
        return None
    rest = tuple(key for key in on_paper.free if key != none_of)
    return _Fight(dict(_given_up(asked, rest, {none_of: 0.0})), without=none_of)


def _too_many(asked: Question) -> _Fight:
    """Return the fight where more is held than the amounts can meet."""
    missed = dict(_given_up(asked, asked.free, {}))
    if missed:
        return _Fight(missed)
    # As many as can be met together; what a mark holds goes before what could be asked for.
    held = sorted(asked.held, key=lambda key: key != "volume")
    for count in range(len(asked.held) - 2, -1, -1):
        for some in combinations(held, count):
            found, _ = first_possible(asked.mix, {k: asked.held[k] for k in some}, asked.free)
            must = asked.mix.must(found.kilos) if found else None
            if must is not None and must.litres > 0:
                left = {key: must.value(key) for key in asked.held if key not in some}
                return _Fight(left, met=some)
    return _Fight({})


def _given_up(
    asked: Question, free: tuple[str, ...], at: Mapping[str, float]
) -> Iterator[tuple[Target, float]]:
    """Give each target that, given up, lets the others be met, with what it then reads."""
    for key in asked.held:
        others = {k: v for k, v in asked.held.items() if k != key}
        found, _ = first_possible(asked.mix, others, free, at)
        if found is not None:
            must = asked.mix.must(found.kilos)
            if must.litres > 0:
                yield key, must.value(key)


def _told(asked: Question, fight: _Fight, first: Target, other: Target | None) -> str:
    """Return what is missed, where, and by how much."""
    value, wanted = fight.missed[first], asked.held[first]
    name = NAMES[first]
    turns_away = bool(fight.without) and _turns_away(asked, fight, first)
    with_what = _with(asked, "" if turns_away else fight.without)
    where = f" {_at(asked, other, asked.held[other])}" if other else ""
    reads, asked_for = value_text(first, value), value_text(first, wanted)
    if first == "volume":
        reads, asked_for = _volume(asked, value), _volume(asked, wanted)
    if not fight.without:
        said = f"{name} comes to {reads}{where}, not the {asked_for} wanted"
    else:
        bound = "under" if value > wanted else "over"
        said = f"{name} cannot go {bound} {reads}{where}, and {asked_for} is wanted"
        if turns_away:
            more = _amount_name(asked, fight.without)
            said = f"no amount of {more} brings {name} to {asked_for}{where}"
    sentence = f"{with_what}{said}"
    return sentence[0].upper() + sentence[1:]


def _turns_away(asked: Question, fight: _Fight, first: Target) -> bool:
    """Return whether more of what there is none of brings the target nearer, but never there."""
    others = {k: v for k, v in asked.held.items() if k != first}
    some = 0.01 * max(asked.mix.must({}).start.mass, 0.1)
    free = tuple(key for key in asked.free if key != fight.without)
    found, _ = first_possible(asked.mix, others, free, {fight.without: some})
    if found is None:
        return False
    value, wanted = fight.missed[first], asked.held[first]
    moved = asked.mix.must(found.kilos).value(first) - value
    return moved * (wanted - value) > 0


def _with(asked: Question, without: str) -> str:
    said = []
    if "fruit" in asked.mix.parts and "fruit" not in asked.free:
        said.append(f"{_fruit(asked, asked.mix.parts['fruit'].now)} of this {_fruit_name(asked)}")
    if without:
        said.append(f"no {_amount_name(asked, without)}")
    return f"with {' and '.join(said)}, " if said else ""


def _amount_name(asked: Question, key: str) -> str:
    named = {
        "sugar": sugar_name(asked.lines.sugar),
        "acid": "acid added",
        "tannin": "tannin powder",
    }
    return named.get(key, key)


def _fruit_name(asked: Question) -> str:
    """Return "juice" where all of it is that."""
    return "juice" if all(is_strained(line) for line in asked.lines.fruit) else "fruit"


def _fruit(asked: Question, kilos: float) -> str:
    """Return so much fruit as it is written: by weight, or by volume where the one line is."""
    line = asked.lines.fruit[0]
    if len(asked.lines.fruit) == 1 and line.amount.dimension == "volume":
        part, litres = line.amount.parts[0], kilos * 1000.0 / g_per_litre(line)
        if part.unit in BY_JUG:
            return poured(litres, part.country or asked.project.gallon, metric=False).text
        return litres_text(litres)
    in_pounds_typed = any(x.amount.parts[0].unit in ("lb", "oz") for x in asked.lines.fruit)
    return in_pounds(kilos * 1000.0).text if in_pounds_typed else grams_text(kilos * 1000.0)


def _volume(asked: Question, litres: float) -> str:
    basis, gallon = asked.project.recipe.basis, asked.project.gallon
    if abs(litres - basis.litres(gallon)) < 1e-6 * litres:
        return with_country(basis, gallon)
    if basis.parts[0].unit != "gal":
        return litres_text(litres)
    country = basis.parts[0].country or gallon
    told = size_like(litres, basis, gallon)
    return told if basis.parts[0].country else f"{told} {country}"


def _at(asked: Question, key: Target, value: float) -> str:
    """Return "in 5 L", "at gravity 1.090" and the like."""
    if key == "volume":
        return f"in {_volume(asked, value)}"
    if key == "fruit":
        return f"with {value_text(key, value)}"
    if key == "drink":
        return f"where it is ready in {value_text(key, value)}"
    return f"at {NAMES[key]} {value_text(key, value)}"


class _Way(NamedTuple):
    key: str
    words: str


def _ways(asked: Question) -> Iterator[_Way]:
    """Give what else could change to meet everything, with how much of it."""
    mix = asked.mix
    for extra in _EXTRAS:
        held, key = dict(asked.held), "water" if extra == "volume" else extra
        if extra == "volume":
            held.pop("volume", None)
        if (extra != "volume" and key in asked.free) or key not in mix.parts or not held:
            continue
        if extra == "volume" and "volume" not in asked.held:
            continue
        found, _ = first_possible(mix, held, tuple(dict.fromkeys((*asked.free, key))))
        if found is not None and _is_sensible(asked, extra, found.kilos):
            yield _Way(extra, _way_words(asked, mix, extra, found.kilos))


def _is_sensible(asked: Question, extra: str, kilos: Mapping[str, float]) -> bool:
    """Return whether it is a way out: something of it is left, and it makes no lake of wine."""
    share = _LEAST_FRUIT_KG if extra == "fruit" else _LEAST_KG
    litres, now = asked.mix.must(kilos).litres, asked.mix.must({}).litres
    if now > 0.0 and litres > _MOST_TIMES * now:
        return False
    return extra == "volume" or kilos.get(extra, 1.0) >= share * litres


def _way_words(asked: Question, mix: Mix, extra: str, kilos: Mapping[str, float]) -> str:
    if extra == "volume":
        return f"in {_volume(asked, mix.must(kilos).litres)}"
    amount = kilos.get(extra, mix.parts[extra].now)
    if extra == "fruit":
        return f"with {_fruit(asked, amount)} of {_fruit_name(asked)}"
    if extra == "water":
        return f"with {litres_text(amount / WATER_KG_PER_L)} of water"
    names = {
        "sugar": sugar_name(asked.lines.sugar),
        "acid": additive_name(asked.lines.acid),
        "tannin": "tannin powder",
    }
    return f"with {grams_text(amount * 1000.0)} {names.get(extra, extra)}"


def _fixed(asked: Question, first: Target, without: str, ways: list[_Way]) -> str:
    """Return what stands against the target where no other target does."""
    if ways:
        return ways[0].key
    return without or next((NAMES[key] for key in asked.held if key != first), "fruit")


def _met(ways: list[str]) -> str:
    return f" It can be met {', or '.join(ways)}." if ways else ""


def _nothing_does(asked: Question) -> str:
    if brix(asked.mix.must({}).start) > _HARDLY_WET_BRIX:
        return "There is hardly any water in the recipe yet: add it first, or fill it to the mark."
    names = [f"the {NAMES[key]}" for key in asked.held][:2]
    together = " together" if len(names) > 1 else ""
    return (
        f"Nothing that may change reaches {' and '.join(names)}{together}: let the water or the "
        "fruit change too, or hold less."
    )
