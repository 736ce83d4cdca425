"""Invented batches put together by hand, so that a page is tested apart from the planning."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

from winebench.model.log import Action, Note, Reading, Record
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine
from winebench.plan.outlook import (
    BottleOutlook,
    Caution,
    Condition,
    CrossingOutlook,
    Figure,
    ForecastOutlook,
    LineOutlook,
    Must,
    Outlook,
    ReadingOutlook,
    RecordField,
    StepOutlook,
    Want,
)
from winebench.units import Amount, Gravity, Temperature

ZONE = timezone(timedelta(hours=2))
PITCH = datetime(2026, 10, 2, 18, 0, tzinfo=ZONE)
NOW = datetime(2026, 10, 6, 18, 30, tzinfo=ZONE)


def after(days: float) -> datetime:
    return PITCH + timedelta(days=days)


def figure(text: str, unit: str, low: float | None = None, high: float | None = None) -> Figure:
    return Figure(value=float(text), low=low, high=high, unit=unit, text=text)


def must() -> Must:
    gravity = figure("1.091", "SG", 1.087, 1.095)
    strength = figure("12.4", "% vol", 11.8, 12.9)
    want = Want(
        key="gravity",
        name="Gravity",
        actual=gravity,
        want_low=1.088,
        want_high=1.094,
        want_text="want 1.088–1.094",
        scale_low=1.06,
        scale_high=1.12,
    )
    acidity = Want(
        key="acidity",
        name="Acidity",
        actual=figure("8.2", "g/L", 6.9, 9.5),
        want_low=6.0,
        want_high=7.5,
        want_text="want 6.0–7.5",
        scale_low=3.0,
        scale_high=12.0,
    )
    return Must(
        liquid=figure("18.9", "L"),
        pail=figure("22.4", "L"),
        gravity_day_0=figure("1.079", "SG"),
        gravity=gravity,
        gravity_whole=gravity,
        brix=figure("21.8", "°Brix"),
        sugar=figure("210", "g/L"),
        acidity=acidity.actual,
        tannin=figure("0.31", "g/L"),
        nitrogen=figure("150", "mg/L"),
        strength=strength,
        dry_gravity=figure("0.994", "SG"),
        sulfite=figure("50", "mg/L"),
        sugar_to_target=figure("0", "g"),
        acid_to_target=figure("0", "g"),
        tannin_to_target=figure("0", "g"),
        water_to_target=figure("0", "L"),
        ready=figure("11", "months"),
        wants=(want, acidity),
        measured=False,
    )


def line(
    line_id: str, kind: str, name: str, written: str, made: Figure, measure: str
) -> LineOutlook:
    return LineOutlook(
        id=line_id,
        kind=kind,  # type: ignore[arg-type]  # built from loose words, as a test reads best
        name=name,
        as_written=written,
        scaled=made,
        measure=measure,
        measure_error_percent=0.2 if kind == "additive" else None,
    )


def lines() -> tuple[LineOutlook, ...]:
    return (
        line("f1", "fruit", "Damsons, stoned, frozen", "4 lb", figure("9.07", "kg"), "20 lb"),
        line("f2", "fruit", "Elderberries", "8 oz", figure("1.13", "kg"), "2 lb 8 oz"),
        line("s", "sugar", "White sugar", "2 lb", figure("4.54", "kg"), "10 lb"),
        line("w", "water", "Water", "to the mark", figure("11.2", "L"), "to the mark"),
        line("e", "additive", "Pectic enzyme", "1/2 tsp", figure("8.1", "g"), "2 1/2 tsp"),
        line("k", "additive", "Sulfite tablets", "1 tablet", figure("5", "tablets"), "5 tablets"),
        line("y", "yeast", "Yeast", "1 packet", figure("1", "packet"), "1 packet"),
    )


def project(**more: object) -> Project:
    log = (
        Action(id="su", at=after(-1), step="sulfite-must", records=(_record("grams", "2.2"),)),
        Action(id="p", at=PITCH, step="pitch", records=(_record("temperature", "68 °F"),)),
        Action(id="t1", at=after(1), step="stir"),
        Action(id="t2", at=after(2), step="stir"),
        Reading(id="r0", at=PITCH, gravity=Gravity("1.091"), temperature=Temperature("68 °F")),
        Reading(
            id="r1", at=after(2), gravity=Gravity("1.078"), temperature=Temperature("75 °F"), ph=3.4
        ),
        Reading(id="r2", at=after(3.9), gravity=Gravity("1.052")),
        Note(id="n", at=after(2.5), text="smells of plums"),
        Action(
            id="x",
            at=after(3.9),
            step="transfer",
            records=(_record("litres", "18.2"), _record("lost", "0.7")),
            override="the only free evening",
        ),
    )
    given: dict[str, object] = {"id": "batch-1", "name": "Hedge damson", "log": log}
    given["recipe"] = Project(id="", name="").recipe
    return Project(**(given | more))  # type: ignore[arg-type]  # built from loose words, as a test reads best


def sulfite_line() -> AdditiveLine:
    return AdditiveLine(id="k", additive="sulfite-tablet", amount=Amount("1 tablet"))


def _record(name: str, value: str) -> Record:
    return Record(name=name, value=value)


def readings() -> tuple[ReadingOutlook, ...]:
    seen = ((0, "r0", "1.091"), (2, "r1", "1.0788"), (3.9, "r2", "1.052"))
    return tuple(
        ReadingOutlook(id=i, at=after(d), raw=sg, corrected=float(sg), sentence=sg)
        for d, i, sg in seen
    )


def forecast() -> ForecastOutlook:
    days = [n / 4 for n in range(80)]
    middle = [0.994 + 0.097 / (1 + (d / 5.0) ** 3.0) for d in days]
    crossing = CrossingOutlook(
        below=1.030,
        name="rack to glass",
        earliest=after(5),
        likely=after(6),
        latest=after(8),
        passed=False,
        sentence="1.030 about Thursday evening, between Wednesday and Saturday",
    )
    return ForecastOutlook(
        times=tuple(after(d) for d in days),
        low=tuple(m - 0.002 - d * 0.0002 for m, d in zip(middle, days, strict=True)),
        middle=tuple(middle),
        high=tuple(m + 0.002 + d * 0.0002 for m, d in zip(middle, days, strict=True)),
        crossings=(crossing,),
        not_finishing=0.04,
        state="falling",
        sentence="It should pass 1.030 about Thursday evening.",
        supported=True,
        next_reading=None,
    )


def step(key: str, name: str, state: str, **more: object) -> StepOutlook:
    given: dict[str, object] = {
        "override": "free",
        "when": "likely Friday 9 October, evening",
        "reason": "The must goes into glass once most of the sugar has gone.",
        "trigger": "a reading below 1.030",
        "reminder": "Jug, siphon and lock clean?",
        "risk": "Foam over the top.",
        "slip_class": "little",
    }
    return StepOutlook(key=key, name=name, state=state, **(given | more))  # type: ignore[arg-type]  # built from loose words, as a test reads best


def steps() -> tuple[StepOutlook, ...]:
    held = Condition(text="a reading below 1.030 on the day", met=False)
    return (
        step("sulfite-must", "Sulfite the must", "done", done_at=after(-1)),
        step(
            "pitch",
            "Pitch the yeast",
            "done",
            done_at=PITCH,
            record=(RecordField(name="temperature", label="Must", unit="°C"),),
        ),
        step(
            "stir",
            "Stir and push the fruit under",
            "due",
            earliest=after(3.5),
            likely=after(4),
            latest=after(4.5),
            repeats=True,
            entry_ids=("t1", "t2"),
            repeat_times=tuple(after(4 + n) for n in range(4)),
            if_slips=("36 h: mould may start on the cap",),
        ),
        step(
            "transfer",
            "Rack to glass",
            "held",
            earliest=after(5),
            likely=after(6),
            latest=after(8),
            conditions=(held,),
            record=(
                RecordField(name="litres", label="Into the jug", unit="L"),
                RecordField(name="lost", label="Lost", unit="L"),
            ),
        ),
        step(
            "bottle",
            "Bottle",
            "expected",
            earliest=after(90),
            likely=after(100),
            latest=after(150),
        ),
        step("declare-stable", "Dry and stable", "later"),
        step("sweeten", "Sweeten to taste", "skipped"),
    )


def outlook(**more: object) -> Outlook:
    given: dict[str, object] = {
        "at": NOW,
        "name": "Hedge damson",
        "style": "Dark and dry",
        "make_text": "5 gal US",
        "basis_text": "1 gal US",
        "scale_factor": 5.0,
        "must": must(),
        "lines": lines(),
        "cautions": (
            Caution(
                key="c",
                severity="caution",
                about="must",
                sentence="The must is sharper than this style wants; a litre of water would do.",
            ),
        ),
        "vessels": (),
        "bottles": BottleOutlook(
            bottles=23, corks=26, finished=figure("17.6", "L"), sentence="23 bottles and a bit."
        ),
        "shopping": (),
        "readings": readings(),
        "forecast": forecast(),
        "steps": steps(),
        "today": (),
        "strength_now": figure("5.1", "% vol", 4.8, 5.4),
        "safety": (
            "Sulfite: keep away from people with asthma; window open.",
            "Never bottle what can ferment again: bottles burst.",
        ),
    }
    return Outlook(**(given | more))  # type: ignore[arg-type]  # built from loose words, as a test reads best
