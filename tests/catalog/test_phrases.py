"""Every phrase of the tables of poisons and household chemicals is found in a text that has it."""

from itertools import product

import pytest

from winebench.catalog.never_food import never_food_in
from winebench.catalog.poisons import poison_in, poisons_in
from winebench.catalog.rows import rows


def written(table):
    """Return every way to write every phrase of the table, with the key of its row."""
    return [
        (" ".join(words), row["key"])
        for row in rows(table)
        for phrase in row["phrases"].split(";")
        for words in product(*(slot.split("|") for slot in phrase.split()))
    ]


def in_plural(text):
    """Return the text as people write several of the thing, where its ending tells how."""
    if text.endswith(("s", "ch", "sh", "che")):
        return text
    return f"{text[:-1]}ies" if text.endswith("y") else f"{text}s"


def test_every_phrase_of_the_poisons_is_found_alone_in_plural_and_in_capitals():
    phrases = written("poisons")
    assert len(phrases) > 300
    for text, key in phrases:
        for typed in (text, in_plural(text), text.upper(), f"wild {text}"):
            assert key in {one.key for one in poisons_in(typed)}, typed


def test_every_phrase_of_the_household_chemicals_is_found_alone_in_plural_and_in_capitals():
    phrases = written("never_food")
    assert len(phrases) > 80
    for text, key in phrases:
        for typed in (text, in_plural(text), text.upper(), f"some {text}"):
            found = never_food_in(typed)
            assert found is not None, typed
            assert found.key == key, typed


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("narcissus bulbs", "daffodil"),
        ("autumn crocus flowers", "autumn-crocus"),
        ("rhubarb plus leaves", "rhubarb-leaf"),
        ("kernels of sloes", "stone-kernel"),
        ("sloes, crushed stones", "stone-kernel"),
    ],
)
def test_names_that_end_like_a_plural_are_found(text, key):
    assert poison_in(text).key == key


def test_a_part_that_is_left_out_by_a_word_that_ends_like_a_plural_is_no_poison():
    assert poison_in("rhubarb tops minus leaves") is None


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Spülmittel", "soap"),
        ("SPÜLMITTEL", "soap"),
        ("Spu\u0308lmittel", "soap"),  # as two signs, as some systems write it
        ("détergent", "detergent"),
        ("Bleichmittel", "bleach"),
        ("eau de Javel", "bleach"),
        ("Natronlauge", "lye"),
        ("soude caustique", "lye"),
        ("Brennspiritus", "wood-alcohol"),
    ],
)
def test_household_chemicals_are_found_by_their_german_and_french_names(text, key):
    assert never_food_in(text).key == key
