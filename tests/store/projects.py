"""Made-up projects, for properties that must hold for every one of them."""

import math
from datetime import datetime, timedelta, timezone

from hypothesis import strategies as st

from winebench.model import log, own_ferment, own_loss, project, recipe, stock
from winebench.model.price import Price
from winebench.model.rough_day import RoughDay
from winebench.units import Amount, Gravity, Juice, Mass, Size, Temperature, Volume

words = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)

picture_names = words.map(
    lambda name: f"row pictures/{''.join(c for c in name if c not in '/:.' + chr(92) + chr(0))}.png"
)


def numbers(low, high):
    """Return numbers that a file may hold there."""
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


acids, phs = numbers(0, 80), numbers(2, 6)
written = st.sampled_from(["3/4", "1 1/2", "2,5", "2.5", "½", "3", " 12 ", "0.05"])
gravities = st.sampled_from(["1.090", "1,042", "22 brix", "SG 0.996", " 1.000 "]).map(Gravity)
juices = st.sampled_from(["1.050", "12 brix", "68 brix"]).map(Juice)
temperatures = st.sampled_from(["20 °C", "68 °F", "20 degC", "-1,5 C", "77 F"]).map(Temperature)
zones = st.integers(-14 * 60, 14 * 60).map(lambda m: timezone(timedelta(minutes=m)))
times = st.builds(
    lambda time, zone: time.replace(tzinfo=zone),
    st.datetimes(datetime(1901, 1, 1), datetime(2199, 12, 31)),
    zones,
)
days = st.dates()


def quantity(kind, *units):
    return st.builds(lambda n, u: kind(f"{n} {u}"), written, st.sampled_from(units))


volumes = quantity(Volume, "gal US", "gallon (imperial)", "L", "mL", "cup US", "tsp")
amounts = quantity(Amount, "lb", "kg", "oz", "g", "L", "tsp", "packet", "tablet")
prices = st.builds(
    lambda n, of: Price(f"{n}{of}"), written, st.sampled_from(["", " a lb", "/2 kg"])
)
rough_days = st.one_of(
    days.map(lambda day: RoughDay(day.isoformat())),
    st.sampled_from(["March 2024", "2024-03", "2024", "3 Mar 2025"]).map(RoughDay),
)
masses = quantity(Mass, "lb", "g")
sizes = quantity(Size, "gal US", "L", "bottles")


def maybe(strategy):
    return st.none() | strategy


def line(kind, **fields):
    return st.builds(kind, id=st.just(""), note=words, **fields)


lines = st.one_of(
    line(
        recipe.FruitLine,
        fruit=words,
        amount=amounts,
        form=st.sampled_from(["fresh", "frozen", "puree", "juice", "dried", "canned"]),
        prepared=st.booleans(),
        measured=st.builds(recipe.Measured, juice=maybe(juices), ph=maybe(phs)),
    ),
    line(
        recipe.SugarLine,
        sugar=words,
        amount=amounts,
        solids_percent=maybe(numbers(1, 100)),
        when=st.sampled_from(["start", "feed"]),
    ),
    line(recipe.WaterLine, amount=maybe(volumes)),
    line(recipe.AdditiveLine, additive=words, amount=amounts),
    line(recipe.YeastLine, amount=amounts, packet_g=numbers(1e-6, 1e6), coolest=temperatures),
)
entries = st.one_of(
    st.builds(
        log.Reading,
        id=st.just(""),
        pictures=st.lists(picture_names, max_size=2).map(tuple),
        at=times,
        gravity=maybe(gravities),
        temperature=maybe(temperatures),
        instrument=st.sampled_from(["hydrometer", "refractometer"]),
        degassed=st.booleans(),
        ph=maybe(phs),
        clear=maybe(st.integers(0, 4)),
        note=words,
    ),
    st.builds(
        log.Action,
        id=st.just(""),
        at=times,
        step=words,
        records=st.lists(st.builds(log.Record, name=words, value=words), max_size=2).map(tuple),
        override=words,
    ),
    st.builds(log.Note, id=st.just(""), at=times, text=words),
)


def _with_ids(made):
    from winebench.model.edits import changed

    def named(parts, stem):
        return tuple(changed(part, id=f"{stem}-{n}") for n, part in enumerate(parts))

    return changed(
        made,
        recipe=changed(made.recipe, lines=named(made.recipe.lines, "line")),
        make=changed(made.make, vessels=named(made.make.vessels, "vessel")),
        log=named(made.log, "log"),
    )


projects = st.builds(
    project.Project,
    id=words,
    name=words,
    gallon=st.sampled_from([None, "US", "imperial"]),
    paper=st.sampled_from(["A4", "Letter"]),
    start=maybe(times),
    recipe=st.builds(
        recipe.Recipe,
        style=words,
        basis=volumes,
        targets=st.builds(
            recipe.Targets,
            gravity_low=maybe(gravities),
            acid_low_g_per_l=maybe(acids),
            tannin_high_g_per_l=maybe(numbers(0, 10)),
            drink_months=maybe(numbers(0, 240)),
        ),
        lines=st.lists(lines, max_size=4).map(tuple),
    ),
    make=st.builds(
        recipe.Make,
        size=sizes,
        by=st.sampled_from(["must", "finished", "bottles"]),
        bottle_ml=numbers(1e-6, 1e5),
        vessels=st.lists(
            st.builds(
                recipe.Vessel,
                id=st.just(""),
                name=words,
                role=st.sampled_from(["primary", "secondary"]),
                holds=volumes,
                glass=st.booleans(),
            ),
            max_size=2,
        ).map(tuple),
    ),
    kitchen=st.builds(
        recipe.Kitchen,
        by=st.sampled_from(["spoon", "scale"]),
        spoons_owned=st.lists(numbers(0.01, 24), max_size=3).map(tuple),
        spoons=st.lists(
            st.builds(recipe.SpoonWeight, additive=words, grams_per_teaspoon=numbers(1e-6, 30)),
            max_size=2,
        ).map(tuple),
        shelf=st.lists(
            st.builds(
                recipe.Owned,
                holds=volumes,
                name=words,
                role=st.sampled_from(["primary", "secondary"]),
                glass=st.booleans(),
                count=st.integers(1, recipe.MOST_OF_A_KIND),
            ),
            max_size=2,
        ).map(tuple),
    ),
    hydrometer=st.builds(recipe.Hydrometer, calibrated=temperatures, adds=numbers(-0.05, 0.05)),
    room=temperatures,
    log=st.lists(entries, max_size=6).map(tuple),
    away=st.lists(st.builds(log.Away, first=days, last=days, why=words), max_size=2).map(tuple),
    weekends=st.booleans(),
    money=words,
    pantry=st.lists(
        st.builds(
            stock.PantryItem,
            what=words,
            have=maybe(amounts),
            pack=maybe(amounts),
            price=maybe(prices),
            opened=maybe(rough_days),
            left_out=st.booleans(),
        ),
        max_size=2,
    ).map(tuple),
    own_ferments=st.lists(
        st.builds(
            own_ferment.OwnFerment,
            name=words,
            batch=words,
            middles=st.tuples(*[numbers(-own_ferment.FARTHEST, own_ferment.FARTHEST)] * 5),
            spreads=st.tuples(*[numbers(0, 1)] * 5),
        ),
        max_size=2,
        unique_by=lambda ferment: ferment.batch,
    ).map(tuple),
    own_losses=st.lists(
        st.builds(
            own_loss.OwnLosses,
            name=words,
            batch=words,
            must_l=numbers(1e-6, 1e6),
            puree=st.booleans(),
            rackings=st.lists(
                st.builds(
                    own_loss.RackedOff,
                    step=st.sampled_from(["transfer", "second-rack", "third-rack"]),
                    lost_l=numbers(0, 1e6),
                ),
                max_size=3,
            ).map(tuple),
        ),
        max_size=2,
        unique_by=lambda losses: losses.batch,
    ).map(tuple),
    reminders=st.booleans(),
    label=st.builds(project.Label, title=words, lines=st.lists(words, max_size=3).map(tuple)),
    drafts=st.lists(st.builds(project.Draft, place=words, text=words), max_size=2).map(tuple),
).map(_with_ids)


def large_project(name: str = "Kill test", entries: int = 400) -> project.Project:
    """Return a project whose file is about 0.1 MB, as after a long year of logging."""
    start = datetime(2026, 9, 1, 18, tzinfo=timezone(timedelta(hours=2)))
    readings = tuple(
        log.Reading(
            id=f"log-{n}",
            at=start + timedelta(hours=n),
            gravity=Gravity(f"{1.09 - 0.09 * (1 - math.exp(-n / 90)):.4f}"),
            temperature=Temperature("20 °C"),
        )
        for n in range(entries)
    )
    return project.Project(id="kill", name=name, log=readings)
