"""An invented batch on day 4, put together by hand so that every kind of mark is drawn."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

from winebench.model.log import Action, Entry, Note, Reading, Record
from winebench.model.project import Project
from winebench.plan.outlook import (
    BottleOutlook,
    Condition,
    CrossingOutlook,
    Figure,
    ForecastOutlook,
    Moved,
    Must,
    Outlook,
    ReadingOutlook,
    RecordField,
    StepOutlook,
)
from winebench.units import Gravity, Temperature

ZONE = timezone(timedelta(hours=2))
PITCH = datetime(2026, 10, 2, 18, 0, tzinfo=ZONE)
NOW = datetime(2026, 10, 6, 18, 30, tzinfo=ZONE)
_READ = ((0, "1.091"), (1, "1.088"), (2, "1.086"), (3, "1.078"))


def day(count: float) -> datetime:
    """Return so many days after the pitch."""
    return PITCH + timedelta(days=count)


def figure(value: float | None = 1.0, unit: str = "SG") -> Figure:
    return Figure(value=value, unit=unit, text="8.2" if value is not None else "not known")


def entries() -> tuple[Entry, ...]:
    stirred = tuple(Action(id=f"s{n}", at=day(n + 0.1), step="stir") for n in range(4))
    read = tuple(
        Reading(id=f"r{n}", at=day(n), gravity=Gravity(text), temperature=Temperature("68 °F"))
        for n, text in _READ
    )
    pitch = Action(
        id="p", at=PITCH, step="pitch", records=(Record(name="temperature", value="68 °F"),)
    )
    return (pitch, *stirred, *read, Note(id="n", at=day(2), text="smells of plums"))


def project() -> Project:
    return Project(id="b", name="Hedge damson", room=Temperature("66 °F"), log=entries())


def readings() -> tuple[ReadingOutlook, ...]:
    return tuple(
        ReadingOutlook(
            id=f"r{n}", at=day(n), raw=text, corrected=float(text), sentence=f"{text} at 68 °F"
        )
        for n, text in _READ
    )


def forecast(*, supported: bool = True) -> ForecastOutlook:
    days = [n / 4 for n in range(60)]
    middle = [0.994 + 0.097 / (1 + (d / 6.2) ** 3.4) for d in days]
    spread = [0.0015 + 0.0009 * max(d - 3, 0) if d < 9 else 0.0055 for d in days]
    rack = CrossingOutlook(
        below=1.030,
        name="rack to glass",
        earliest=day(5.8),
        likely=day(7.0),
        latest=day(8.6),
        passed=False,
        sentence="1.030 about Friday evening, between Thursday noon and Sunday · check Friday",
    )
    dry = CrossingOutlook(
        below=1.000,
        name="nearly dry",
        earliest=day(9),
        likely=day(13),
        latest=day(20),
        passed=False,
        sentence="1.000 about Thursday 15 October, between 11 and 22 October",
    )
    return ForecastOutlook(
        times=tuple(day(d) for d in days),
        low=tuple(m - s for m, s in zip(middle, spread, strict=True)),
        middle=tuple(middle),
        high=tuple(m + s for m, s in zip(middle, spread, strict=True)),
        crossings=(rack, dry),
        not_finishing=0.04,
        state="falling",
        sentence="Falling steadily; 1.030 about Friday evening, between Thursday noon and Sunday.",
        supported=supported,
        next_reading=day(5),
    )


def _step(key: str, name: str, state: str, **more: object) -> StepOutlook:
    given: dict[str, object] = {
        "override": "free",
        "when": "likely Friday 9 October, evening",
        "reason": "",
        "trigger": "",
        "reminder": "",
        "risk": "",
        "slip_class": "little",
    }
    given.update(more)
    return StepOutlook(key=key, name=name, state=state, **given)  # type: ignore[arg-type]


def steps() -> tuple[StepOutlook, ...]:
    return (*_begun(), _rack(), *_to_come())


def _begun() -> tuple[StepOutlook, ...]:
    """Return what was done, missed or falls due before the racking."""
    return (
        _step(
            "fruit-accepted",
            "Fruit accepted",
            "done",
            done_at=day(-1.2),
            entry_ids=(),
            when="done 1 October",
        ),
        _step("enzyme", "Enzyme", "done", done_at=day(-0.4), when="done 2 October"),
        _step("pitch", "Pitch the yeast", "done", done_at=PITCH, entry_ids=("p",), when="done"),
        _step(
            "sign-of-life",
            "Sign of life",
            "missed",
            earliest=day(0.5),
            likely=day(1.5),
            latest=day(3),
            when="was due by Monday",
        ),
        _step(
            "stir",
            "Stir daily",
            "due",
            repeats=True,
            entry_ids=("s0", "s1", "s2", "s3"),
            likely=NOW,
            repeat_times=(day(5), day(6)),
            when="today by 20:00",
        ),
        _step(
            "second-nitrogen",
            "Second nitrogen",
            "due",
            earliest=day(3.4),
            likely=day(4),
            latest=day(5.2),
            when="today",
        ),
        _step(
            "lift-fruit",
            "Lift the bag",
            "expected",
            earliest=day(5),
            likely=day(6.2),
            latest=day(7.2),
        ),
    )


def _rack() -> StepOutlook:
    """Return the step with all that a step can say."""
    return _step(
        "transfer",
        "Rack to glass",
        "held",
        override="reason",
        earliest=day(5.8),
        likely=day(7.0),
        latest=day(8.6),
        basis="forecast",
        reason="The must goes into glass once most of the sugar has gone.",
        trigger="a reading below 1.030",
        conditions=(
            Condition(text="a reading below 1.030 on the day", met=False),
            Condition(text="the bag lifted", met=False),
            Condition(text="a clean 19 L jug is free", met=True),
        ),
        moved=Moved(
            was=day(6),
            now=day(7),
            because="the must ran at 17 °C",
            sentence="was Thursday · now Friday · because the must ran at 17 °C and the last "
            "reading came in 4 points high",
        ),
        if_slips=("1 day: fine", "3 days: air and browning", "last safe day: Monday 12 October"),
        reminder="Jug, siphon and lock clean?",
        risk="foam over the top, or air and vinegar",
        record=(
            RecordField(name="into", label="Into glass", unit="L"),
            RecordField(name="lost", label="Lost", unit="L"),
        ),
    )


def _to_come() -> tuple[StepOutlook, ...]:
    return (
        _step(
            "second-rack",
            "Second rack",
            "expected",
            earliest=day(35),
            likely=day(37),
            latest=day(63),
            when="about 8 November",
        ),
        _step("declare-stable", "Dry and stable", "later", when="from mid-November"),
        _step("sweeten", "Sweeten", "skipped", when="not needed: a dry wine"),
        _step(
            "bottle",
            "Bottle",
            "held",
            override="never",
            earliest=day(90),
            likely=day(100),
            latest=day(120),
            when="not before January",
            risk="bursting bottles",
            conditions=(Condition(text="three equal readings over 14 days", met=False),),
        ),
    )


def outlook(**changes: object) -> Outlook:
    """Return the batch's outlook on day 4."""
    must = Must(**{n: figure() for n in Must.__struct_fields__} | {"wants": (), "measured": False})  # type: ignore[arg-type]
    given: dict[str, object] = {
        "at": NOW,
        "name": "Hedge damson",
        "style": "dark-dry",
        "make_text": "5 gal US",
        "basis_text": "1 gal US",
        "scale_factor": 5.0,
        "must": must,
        "lines": (),
        "cautions": (),
        "vessels": (),
        "bottles": BottleOutlook(bottles=23, corks=25, finished=figure(), sentence=""),
        "shopping": (),
        "readings": readings(),
        "forecast": forecast(),
        "steps": steps(),
        "today": (),
        "strength_now": figure(3.0, "% vol"),
        "safety": (),
    }
    given.update(changes)
    return Outlook(**given)  # type: ignore[arg-type]
