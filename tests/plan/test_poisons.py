"""Poisonous plants and parts: known by name, a stop that no reason opens, and asked on a card."""

from __future__ import annotations

import pytest

from tests.plan.damson import LINES, PITCHED, at, damson, step
from winebench.catalog.additives import additives
from winebench.catalog.fruits import fruits
from winebench.catalog.poisons import poison_in, poisons, poisons_in
from winebench.catalog.sugars import sugars
from winebench.catalog.synonyms import synonyms
from winebench.model.edits import changed
from winebench.model.recipe import AdditiveLine, FruitLine, Recipe
from winebench.plan.handed_down.dangers import EARLY, HOT, SEALED
from winebench.plan.handed_down.into_project import card_lines
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.work_out import outlook
from winebench.units import Amount, Volume

# --- the table --------------------------------------------------------------------------------


def test_every_poison_names_what_it_does_and_its_source():
    assert len({poison.key for poison in poisons()}) == len(poisons()) >= 30
    for poison in poisons():
        assert poison.harm
        assert poison.source
        assert poison.phrases


@pytest.mark.parametrize(
    ("name", "note", "key"),
    [
        # CDC, MMWR 1984;33(13):173: juice pressed from bunches "with their leaves and branches".
        ("elder leaves", "", "elder-green"),
        ("Elderberries", "with stalks", "elder-green"),
        ("unripe elderberries", "", "elder-green"),
        # EFSA Journal 2016;14(4):4424: amygdalin becomes cyanide by chewing or grinding.
        ("apricot kernels", "", "stone-kernel"),
        ("cherry stones", "crushed", "stone-kernel"),
        ("cherries", "crushed stones", "stone-kernel"),
        # BC Drug and Poison Information Centre: only the stalks are eaten.
        ("rhubarb leaves", "", "rhubarb-leaf"),
        ("Rhubarb", "leaves and all", "rhubarb-leaf"),
        # Rutgers NJAES, harmful plants: the seed of yew.
        ("yew berries", "", "yew"),
        ("yew tree berries", "", "yew"),
        # NC State Extension: moonseed's fruit is confused with wild grapes.
        ("moonseed", "", "moonseed"),
        ("black nightshade berries", "", "nightshade"),
        ("lily-of-the-valley berries", "", "lily-of-the-valley"),
        ("lords-and-ladies", "", "lords-and-ladies"),
        ("pokeberries", "", "pokeweed"),
        ("doll's eyes", "", "baneberry"),
        ("green potatoes", "", "potato-green"),
    ],
)
def test_a_poison_is_known_as_people_write_it(name, note, key):
    found = poison_in(name, note)
    assert found is not None
    assert found.key == key


@pytest.mark.parametrize(
    ("name", "note"),
    [
        ("Yew Tree Farm plums", ""),
        ("damsons", "from Yew Tree Farm"),
        ("Holly's plums", ""),
        ("plums with stones", ""),
        ("plums", "stones left in"),
        ("cherries, stoned", ""),
        ("cherries, stones removed", ""),
        ("rhubarb, no leaves", ""),
        ("rhubarb", "leaves cut off"),
        ("elderflowers", ""),
        ("elderberries", "stalks off"),
        ("bay laurel leaves", ""),
        ("sea buckthorn", ""),
        ("honeysuckle flowers", ""),
        ("potatoes", ""),
        ("cherry plums", ""),
    ],
)
def test_good_things_are_no_poison(name, note):
    assert poison_in(name, note) is None


def test_nothing_in_the_catalog_is_taken_for_a_poison():
    names = [known.name for table in (fruits(), sugars(), additives()) for known in table.values()]
    names += [one.name for one in synonyms()]
    assert [name for name in names if poison_in(name)] == []


# --- the recipe -------------------------------------------------------------------------------


def with_line(line):
    recipe = Recipe(lines=(*LINES, line), basis=Volume("5 gal US"))
    return damson(*PITCHED[:-1], recipe=recipe)


@pytest.mark.parametrize(
    "line",
    [
        FruitLine(id="x", fruit="yew berries", amount=Amount("2 lb")),
        AdditiveLine(id="x", additive="cherry kernels", amount=Amount("4 oz")),
        FruitLine(id="x", fruit="elderberry", amount=Amount("1 lb"), note="leaves and stalks"),
    ],
)
def test_a_poison_on_the_recipe_stops_the_yeast_whatever_the_reason(line):
    seen = outlook(with_line(line), at("2026-10-02T18:20"))
    (stop,) = [caution for caution in seen.cautions if caution.about == "x"]
    assert stop.key == "poison"
    assert (stop.severity, stop.about, stop.gates) == ("stop", "x", "pitch")
    pitch = step(seen, "pitch")
    assert pitch.override == "never"
    clean = outlook(with_line(changed(line, note="", **_harmless(line))), at("2026-10-02T18:20"))
    assert [caution for caution in clean.cautions if caution.key == "poison"] == []
    assert step(clean, "pitch").override != "never"


def _harmless(line):
    return {"fruit": "elderberry"} if isinstance(line, FruitLine) else {"additive": "citric-acid"}


# --- the card ---------------------------------------------------------------------------------


def row(text):
    card = f"Plum wine\n6 lb plums\n3 lb sugar\n{text}\n"
    return next(r for r in read_card(card).rows if r.item.text == text)


@pytest.mark.parametrize(
    "text", ["200 g rhubarb leaves", "4 oz cherry stones, crushed", "2 lb yew berries"]
)
def test_a_poison_on_a_card_is_said_and_becomes_no_line(text):
    found = row(text)
    assert (found.kind, found.state, found.options) == ("question", "asked", ("note",))
    assert "a poison that must never go in" in found.remarks[0].sentence
    card = f"Plum wine\n6 lb plums\n{text}"
    told = read_card(card, {text.lower(): "fruit"})
    assert len(card_lines(told)) == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Pour boiling water over fruit in the glass jar.", HOT),
        ("Add the hot syrup to the demijohn", HOT),
        ("Bottle after three weeks.", EARLY),
        ("After 6 weeks rack and bottle.", EARLY),
        ("When it stops bubbling, bottle it.", EARLY),
        ("Seal tight and leave for a week.", SEALED),
        ("Cover with an airtight lid.", SEALED),
    ],
)
def test_dangerous_words_of_a_method_are_kept_with_a_caution(text, said):
    found = row(text)
    assert (found.kind, found.state) == ("method", "look")
    assert found.remarks[0].sentence == said


@pytest.mark.parametrize(
    "text",
    [
        "Pour boiling water over the fruit in a pail, leave to cool, strain into a glass jar.",
        "Fit an airlock and seal it tightly.",
        "Cork the bottles tightly.",
        "Bottle after 12 months.",
        "Leave in the bottles for 2 months.",
        "Stir daily for 5 days.",
    ],
)
def test_a_sound_method_gets_none(text):
    assert row(text).remarks == ()


@pytest.mark.parametrize(
    "words",
    ["3 lb rhubarb stalks with the leaves left on", "1 lb rhubarb with leaves",
     "2 lb rhubarb including the leaves", "6 lb cherries, crushed with the stones",
     "2 oz daffodils", "1 lb wisteria pods", "1 cup buttercups"],
)  # fmt: skip
def test_ordinary_wording_hides_no_poison(words):
    assert poison_in(words.split(" ", 2)[2]) is not None


@pytest.mark.parametrize(
    "words",
    ["rhubarb stalks with the leaves cut off", "rhubarb without leaves", "bittersweet apples",
     "cherries with the stones left in", "sweet peas of the garden"],
)  # fmt: skip
def test_what_is_taken_off_or_only_sounds_alike_is_none(words):
    assert poison_in(words) is None


def test_each_poison_of_a_paragraph_is_named():
    found = poisons_in("Add the rhubarb leaves and the crushed stones of the plums.")
    assert [one.key for one in found] == ["rhubarb-leaf", "stone-kernel"]


@pytest.mark.parametrize(
    ("line", "danger"),
    [("When at 1.010 bottle and cork tight.", "before the end of the fall"),
     ("Leave it in a galvanised bucket for a week.", "zinc, copper and lead"),
     ("Boil the fruit in a copper pan.", "zinc, copper and lead")],
)  # fmt: skip
def test_early_bottles_and_metal_vessels_on_a_card_are_told(line, danger):
    card = f"Plum\n3 lb plums\n2 lb sugar\nwater to 1 gallon\n1 packet yeast\n{line}"
    rows = read_card(card, gallon="US").rows
    assert any(danger in remark.sentence for row in rows for remark in row.remarks)


@pytest.mark.parametrize(
    "title", ["Yew berry wine", "Yew berry wine, 1 gallon", "A gallon of yew wine", "Yew"]
)
def test_a_title_that_names_a_poison_says_so_and_stays_the_title(title):
    reading = read_card(f"{title}\n3 kg plums\n1 kg sugar\nwater to 1 gallon", gallon="US")
    found = reading.rows[0]
    assert (found.kind, found.state) == ("title", "look")
    assert [r.sentence[:12] for r in found.remarks] == ["Danger. Yew:"]
    assert not reading.is_open


def test_a_place_named_after_a_plant_is_no_poison_in_a_title():
    found = read_card("Yew Tree Farm plum\n3 kg plums").rows[0]
    assert (found.kind, found.state, found.remarks) == ("title", "read", ())
