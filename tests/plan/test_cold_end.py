"""A wine at its end in a cold room: its yeast may only rest, so that no day for the bottles is
honest before it stood warm. 18 °C for 14 days: common practice."""

from tests.plan.damson import IN_GLASS, at, damson, planned, read, seen, step, ticked, waiting
from winebench.units import Temperature

ENDED = (
    *IN_GLASS,
    read("0.996", "2026-10-30T18:00+01:00"),
    read("0.993", "2026-11-06T18:00+01:00"),
    ticked("second-rack", "2026-11-07T10:00+01:00"),
    read("0.993", "2026-11-15T18:00+01:00"),
)
NOW = "2026-11-15T19:00+01:00"
COLD = Temperature("12 °C")


def test_at_its_end_in_a_cold_room_nothing_after_it_has_a_date() -> None:
    found = seen(damson(*ENDED, room=COLD), NOW)
    stable = step(found, "declare-stable")
    assert (stable.state, stable.likely, stable.basis) == ("held", None, "none")
    assert stable.when == "no date until it has stood warm"
    assert stable.reason == (
        "It is at its end, but the room is set to 12 °C, where yeast may only rest. Warm it to "
        "20 °C, set the room to that, and read it 14 days later."
    )
    assert "18 °C or warmer meanwhile (the room is set to 12 °C)" in waiting(stable)
    (caution,) = [one for one in found.cautions if one.key == "cold-at-end"]
    assert caution.detail.startswith("Warm it to 20 °C")
    (today,) = [one for one in found.today if one.step == "declare-stable"]
    assert (today.kind, today.title, today.due) == ("held", "Held: dry and stable", None)
    assert "Warm it to 20 °C" in today.detail
    for key in ("stabilise", "bottle", "upright", "first-taste", "drink-by"):
        assert step(found, key).likely is None, key
    assert step(found, "stabilise").reason == "It follows a stable wine, which has no date yet."


def test_the_same_wine_in_a_warm_room_keeps_its_dates() -> None:
    assert not [c for c in seen(damson(*ENDED), NOW).cautions if c.key == "cold-at-end"]
    # Racked on 7 November at 10:00: 14 days on are 21 November at 10:00.
    stable = planned(damson(*ENDED), NOW, "declare-stable")
    assert stable.earliest == at("2026-11-21T10:00+01:00")
    assert planned(damson(*ENDED), NOW, "bottle").likely is not None


def test_a_cold_ferment_that_still_falls_keeps_its_dates() -> None:
    falling = damson(*IN_GLASS, read("1.010", "2026-10-20T18:00"), room=COLD)
    assert planned(falling, "2026-10-20T19:00", "bottle").likely is not None


def test_fourteen_days_count_from_the_last_cold_sample() -> None:
    # 12 °C on the 15th, then warm on the 16th, the 23rd and the 30th at 18:00: 14 days. Those read
    # cold before count no more, and hold nothing back either.
    cold = (*ENDED[:-1], read("0.994", "2026-11-15T18:00+01:00", "12 °C"))  # it is 0.993
    stable = planned(damson(*cold), NOW, "declare-stable")
    assert "18 °C or warmer meanwhile" in waiting(stable)
    assert stable.earliest == at("2026-11-29T18:00+01:00")
    warm = (
        *cold,
        read("0.993", "2026-11-16T18:00+01:00"),
        read("0.993", "2026-11-23T18:00+01:00", degassed=True, clear=3),
    )
    stable = planned(damson(*warm), "2026-11-23T19:00+01:00", "declare-stable")
    assert stable.earliest == at("2026-11-30T18:00+01:00")
    assert waiting(stable)[0].endswith("(2 so far, over 7 days)")
    third = read("0.993", "2026-11-30T18:00+01:00", degassed=True, clear=3)
    assert waiting(planned(damson(*warm, third), "2026-11-30T19:00+01:00", "declare-stable")) == []
