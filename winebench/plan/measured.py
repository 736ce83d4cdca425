"""What was written down when the fruit was measured, put where the must is worked out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from winebench.model.edits import PutLine, changed
from winebench.model.log import Record
from winebench.model.project import Project
from winebench.model.recipe import FruitLine, Measured
from winebench.plan.outlook import Caution, Repair
from winebench.plan.portions import MOST_USUAL_BRIX, brix_of
from winebench.plan.record_values import ACID_BEHIND, BRIX_BEHIND, PH_BEFORE
from winebench.plan.typed.acidity import HIGHEST_PH, LOWEST_PH, MOST_ACID_OF_FRUIT
from winebench.units import Juice, UnitsError, parse_number

STEP = "measure-fruit"
MOST_BRIX_OF_JUICE = 35.0
"""No fresh fruit's juice has more: the sweetest grapes give some 30 (common practice)."""
USUAL_BRIX, USUAL_ACID, USUAL_PH = (4.0, MOST_USUAL_BRIX), (3.0, 35.0), (2.6, 4.2)
"""What the juice of wine makers' fruit gives; beyond it a reading is doubted (common practice)."""
_SAME = 0.02
"""Figures of two measurements that differ by no larger share are the same."""


def measured_from(records: Iterable[Record]) -> Measured:
    """Return the records of a measurement as figures of the juice.

    Raises:
        UnitsError: a record is no number, or none that fruit can have; one sentence.

    """
    found = {record.name: record.value.strip() for record in records if record.value.strip()}
    return Measured(
        juice=_juice(found["brix"]) if "brix" in found else None,
        acid_g_per_l=_between(found, "acid", "acidity (g/L)", 0.5, MOST_ACID_OF_FRUIT),
        ph=_between(found, "ph", "pH", LOWEST_PH, HIGHEST_PH),
    )


def _juice(text: str) -> Juice:
    value = parse_number(BRIX_BEHIND.sub("", text))
    if 0.99 <= value <= 1.2:
        return Juice(f"{value:.3f}")
    if not 1.2 < value <= MOST_BRIX_OF_JUICE:
        raise UnitsError(f'"{text}" is no fruit juice (2 to 35 °Brix); strain and read it again.')
    return Juice(f"{value:g} brix")


def _between(found: dict[str, str], key: str, name: str, low: float, high: float) -> float | None:
    if key not in found:
        return None
    value = parse_number(ACID_BEHIND.sub("", PH_BEFORE.sub("", found[key])))
    if not low <= value <= high:
        raise UnitsError(f"{name} {found[key]} is outside {low:g} to {high:g}; measure it again.")
    return value


def as_measured(project: Project) -> Project:
    """Return the project with its one fruit measured as the log says.

    Figures on the line itself win; with several fruits nobody can tell which was meant.
    """
    lines = _unmeasured(project)
    action = project.done(STEP)
    if action is None or len(project.fruits) != 1 or not lines:
        return project
    try:
        measured = measured_from(action.records)
    except UnitsError:
        return project
    own = lines[0].measured.tannin_mg_per_100_g
    line = changed(lines[0], measured=changed(measured, tannin_mg_per_100_g=own))
    kept = tuple(line if x.id == line.id else x for x in project.recipe.lines)
    return changed(project, recipe=changed(project.recipe, lines=kept))


def doubtful_measures(line: FruitLine) -> Caution | None:
    """Return a caution where what was measured is not what fruit gives: measure it again."""
    if line.form not in ("fresh", "frozen"):
        return None
    measured = line.measured
    juice = None if measured.juice is None else brix_of(measured.juice)
    figures = (
        (juice, USUAL_BRIX, "°Brix"),
        (measured.acid_g_per_l, USUAL_ACID, "g/L of acid"),
        (measured.ph, USUAL_PH, "as its pH"),
    )
    for value, (low, high), unit in figures:
        if value is not None and not low <= value <= high:
            return Caution(
                key="doubtful-measure",
                severity="caution",
                about=line.id,
                sentence=f"{value:g} {unit} is not what fruit gives ({low:g} to {high:g}).",
                detail="Strain, cool to 20 °C and measure it again; it is reckoned with as typed.",
            )
    return None


def _unmeasured(project: Project) -> list[FruitLine]:
    return [line for line in project.fruits if not line.measured.is_of_this_fruit]


def measured_cautions(project: Project) -> tuple[Caution, ...]:
    """Return what keeps a measurement in the log from being used, if anything does."""
    action = project.done(STEP)
    if action is None or not action.records:
        return ()
    if not _unmeasured(project):
        return tuple(_contradicted(project, action.records))
    try:
        measured = measured_from(action.records)
    except UnitsError as problem:
        sentence = f"The fruit's measurement cannot be used: {problem}"
    else:
        if measured == Measured() or len(project.fruits) == 1:
            return ()
        sentence = "One measurement cannot stand for several fruits: write each on its own line."
    return (Caution(key="unused-measure", severity="caution", about=STEP, sentence=sentence),)


def _contradicted(project: Project, records: Iterable[Record]) -> Iterator[Caution]:
    """Give what the log measured otherwise than the one fruit's line says, which counts."""
    if len(project.fruits) != 1:
        return
    line = project.fruits[0]
    try:
        logged = measured_from(records)
    except UnitsError:
        return
    pairs = (
        ("°Brix", _brix(line.measured), _brix(logged)),
        ("g/L of acid", line.measured.acid_g_per_l, logged.acid_g_per_l),
        ("as its pH", line.measured.ph, logged.ph),
    )
    other = [
        f"{new:g} {unit} where the line has {old:g}"
        for unit, old, new in pairs
        if old is not None and new is not None and abs(old - new) > _SAME * old
    ]
    if not other:
        return
    took = {name: value for name in ("juice", "acid_g_per_l", "ph")
            if (value := getattr(logged, name)) is not None}  # fmt: skip
    label = "take the log's figures"
    put = PutLine(label=label, line=changed(line, measured=changed(line.measured, **took)))
    yield Caution(
        key="measured-twice",
        severity="caution",
        about=line.id,
        sentence=f"The log measured {', '.join(other)}: the line's figures count.",
        detail="Details of the line (F4) hold what counts.",
        repairs=(Repair(label=label.capitalize(), edit=put),),
    )


def _brix(measured: Measured) -> float | None:
    return None if measured.juice is None else round(brix_of(measured.juice), 1)
