"""What sets the clock of the 14 equal days back: sugar, acid, another wine, a racking with its air,
a fall of more than a point. Common practice; the days are counted by hand."""

from tests.plan.damson import (
    IN_GLASS,
    NEARLY_STABLE,
    STABLE,
    THIRD_READING,
    at,
    damson,
    planned,
    read,
    seen,
    stabilised,
    step,
    ticked,
    waiting,
)
from winebench.model.log import Entry


def stable_on(log: tuple[Entry, ...], now: str) -> list[str]:
    return waiting(planned(damson(*log), now, "declare-stable"))


def test_a_racking_starts_the_fourteen_days_again() -> None:
    # 0.993 on the 6th, the 15th and the 20th at 18:00 are 14 days; racked on the 7th at 10:00, they
    # are 13 days and 8 hours since, and 14 on the 21st at 10:00.
    flat = read("0.993", "2026-11-20T18:00+01:00", degassed=True, clear=3)
    log = (*NEARLY_STABLE, flat)
    assert stable_on(log, "2026-11-20T19:00+01:00") == [
        "three readings equal within a point over 14 days (3 so far, over 13 days since the "
        "racking)"
    ]
    found = planned(damson(*log), "2026-11-20T19:00+01:00", "declare-stable")
    assert found.earliest == at("2026-11-21T10:00+01:00")
    unracked = tuple(entry for entry in log if not entry.id.startswith("second-rack"))
    assert stable_on(unracked, "2026-11-20T19:00+01:00") == []


def test_a_third_racking_of_a_wine_not_declared_yet_starts_them_too() -> None:
    racked = (*NEARLY_STABLE, THIRD_READING, ticked("third-rack", "2026-11-22T10:00+01:00"))
    assert "(1 so far, over 0 days" in stable_on(racked, "2026-11-22T11:00+01:00")[0]


def test_a_racking_between_the_declaration_and_the_stabilising_takes_it_back() -> None:
    # Declared on the 21st, racked on the 22nd at 10:00: 14 days on are 6 December at 10:00.
    racked = (*STABLE, ticked("third-rack", "2026-11-22T10:00+01:00"))
    found = seen(damson(*racked), "2026-11-22T11:00+01:00")
    assert step(found, "declare-stable:1").state == "done"
    again = step(found, "declare-stable")
    assert (again.state, again.earliest) == ("expected", at("2026-12-06T10:00+01:00"))
    assert "the wine declared dry and stable" in waiting(step(found, "stabilise"))
    assert step(found, "bottle").override == "never"
    # 21 and 29 November, 6 December at 12:00: three equal readings, 14 days since the racking.
    equal = (
        read("0.993", "2026-11-29T18:00+01:00"),
        read("0.993", "2026-12-06T12:00+01:00", degassed=True, clear=4),
    )
    assert stable_on((*racked, *equal), "2026-12-06T13:00+01:00") == []


def test_a_racking_of_the_stabilised_wine_asks_for_a_week_of_rest() -> None:
    # Stabilised on the 22nd, racked on the 24th at 10:00: a week on is 1 December at 10:00.
    racked = (
        *STABLE,
        stabilised("2026-11-22T10:00+01:00"),
        read("0.993", "2026-11-23T18:00+01:00"),
        ticked("third-rack", "2026-11-24T10:00+01:00"),
    )
    found = seen(damson(*racked), "2026-11-24T11:00+01:00")
    assert step(found, "declare-stable").state == "done"
    bottle = step(found, "bottle")
    assert waiting(bottle) == [
        "seven days since the racking",
        "the same gravity at both ends of those days",
    ]
    assert (bottle.override, bottle.earliest) == ("never", at("2026-12-01T10:00+01:00"))
    reading = step(found, "read-gravity")
    assert reading.likely == at("2026-12-01T10:00+01:00")
    assert reading.reason == "At the end of the week after the racking: it must not have moved."
    rested = (*racked, read("0.993", "2026-12-01T11:00+01:00"))
    bottle = planned(damson(*rested), "2026-12-01T12:00+01:00", "bottle")
    assert (bottle.override, waiting(bottle)) == ("free", [])
    fallen = (*racked, read("0.990", "2026-12-01T11:00+01:00"))
    assert planned(damson(*fallen), "2026-12-01T12:00+01:00", "bottle").override == "never"


def test_acid_or_another_wine_before_it_is_stable_starts_them_too() -> None:
    early = (*NEARLY_STABLE, ticked("sweeten", "2026-11-18T10:00+01:00", acid="2 g"),
             THIRD_READING)  # fmt: skip
    assert "(1 so far, over 0 days)" in stable_on(early, "2026-11-21T20:00+01:00")[0]
    rested = (*early, read("0.993", "2026-11-28T18:00+01:00"),
              read("0.993", "2026-12-05T18:00+01:00", degassed=True, clear=3))  # fmt: skip
    assert stable_on(rested, "2026-12-05T20:00+01:00") == []


def test_sugar_fed_to_a_declared_wine_takes_the_declaration_back() -> None:
    fed = (*STABLE, ticked("sugar-feed", "2026-11-25T10:00+01:00", grams="500"))
    found = seen(damson(*fed), "2026-11-25T11:00+01:00")
    assert step(found, "declare-stable").state != "done"
    assert step(found, "declare-stable:1").state == "done"
    assert step(found, "bottle").override == "never"


def test_acid_alone_needs_a_week_of_rest_and_no_sorbate() -> None:
    log = (
        *STABLE,
        ticked("stabilise", "2026-11-22T10:00+01:00", **{"mg-per-l": "40"}),
        ticked("sweeten", "2026-11-24T10:00+01:00", acid="2 g"),
        read("0.993", "2026-11-24T11:00+01:00"),
    )
    assert planned(damson(*log), "2026-11-25T10:00+01:00", "bottle").override == "never"
    rested = (*log, read("0.993", "2026-12-01T10:30+01:00"))
    bottle = planned(damson(*rested), "2026-12-01T11:00+01:00", "bottle")
    assert (bottle.override, waiting(bottle)) == ("free", [])
    sweet = (*log[:-1], read("1.010", "2026-11-24T11:00+01:00"),
             read("1.010", "2026-12-01T10:30+01:00"))  # fmt: skip
    bottle = planned(damson(*sweet), "2026-12-01T11:00+01:00", "bottle")
    assert [text.split(" (")[0] for text in waiting(bottle)] == ["sorbate in, since it is sweet"]


def test_a_racking_to_come_is_reckoned_with_before_it_is_done() -> None:
    # In glass on 9 October at 19:00 and 0.993 since the 28th: racked on 6 November at the earliest,
    # after 28 days; 14 more are 20 November.
    flat = (*IN_GLASS, read("0.993", "2026-10-28T18:00"), read("0.993", "2026-11-01T18:00"))
    found = seen(damson(*flat), "2026-11-01T19:00")
    assert step(found, "second-rack").earliest == at("2026-11-06T19:00")
    assert step(found, "declare-stable").earliest == at("2026-11-20T19:00")
    # Racked with no reading since: 14 days from the racking all the same.
    racked = (*flat, ticked("second-rack", "2026-11-08T10:00"))
    assert planned(damson(*racked), "2026-11-08T11:00", "declare-stable").earliest >= at(
        "2026-11-22T10:00"
    )


def test_a_reading_corrected_since_takes_the_declaration_back() -> None:
    # 0.996 on the 15th instead of 0.993: the equal readings begin on the 21st at 18:00, and 14
    # days on are 5 December at 18:00.
    wrong = tuple(
        read("0.996", "2026-11-15T18:00+01:00") if entry is STABLE[-3] else entry
        for entry in STABLE
    )
    found = seen(damson(*wrong), "2026-11-22T10:00+01:00")
    assert step(found, "declare-stable:1").state == "done"
    again = step(found, "declare-stable")
    assert (again.state, again.earliest) == ("expected", at("2026-12-05T18:00+01:00"))
    bottle = step(found, "bottle")
    assert (bottle.override, bottle.earliest) == ("never", at("2026-12-06T18:00+01:00"))
    # Read on and declared again, it is stable.
    on = (
        *wrong,
        read("0.993", "2026-11-28T18:00+01:00"),
        read("0.993", "2026-12-05T18:00+01:00", degassed=True, clear=4),
    )
    again = planned(damson(*on), "2026-12-05T19:00+01:00", "declare-stable")
    assert (again.state, again.override) == ("due", "free")
    ticked_again = (*on, ticked("declare-stable", "2026-12-05T19:00+01:00"))
    found = planned(damson(*ticked_again), "2026-12-05T20:00+01:00", "stabilise")
    assert "the wine declared dry and stable" not in waiting(found)


def test_acid_between_the_declaration_and_the_stabilising_takes_it_back() -> None:
    # Declared on the 21st, acid on the 23rd at 10:00: of three readings since, the first on the
    # 23rd at 18:00, 14 days on are 7 December at 18:00.
    acid = ticked("sweeten", "2026-11-23T10:00+01:00", acid="2 g", trial="sharper")
    changed_wine = (*STABLE, acid, read("0.993", "2026-11-23T18:00+01:00"))
    found = seen(damson(*changed_wine), "2026-11-24T10:00+01:00")
    again = step(found, "declare-stable")
    assert (again.state, again.earliest) == ("expected", at("2026-12-07T18:00+01:00"))
    assert step(found, "bottle").override == "never"
    # After the stabilising a week of rest is enough.
    safe = (*STABLE, stabilised("2026-11-22T10:00+01:00"), acid,
            read("0.993", "2026-11-23T18:00+01:00"))  # fmt: skip
    found = seen(damson(*safe), "2026-11-24T10:00+01:00")
    assert step(found, "declare-stable").state == "done"
    assert step(found, "bottle").earliest == at("2026-11-30T10:00+01:00")
