"""The register of rules: each declared beside its function, run by name with its workings."""

from __future__ import annotations

import difflib
import importlib
import inspect
import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple, TypeVar

from winebench.trade.ranges import NotKnown, Spread
from winebench.trade.workings import Input, Workings
from winebench.units import (
    Amount,
    Gravity,
    Temperature,
    UnitsError,
    gravity_meant,
    parse_number,
)

F = TypeVar("F", bound=Callable[..., Any])
TOPICS = (
    "gravity", "hydrometer", "sugar", "alcohol", "acid", "sulfite", "sorbate", "nutrient",
    "blending", "bottling", "refractometer", "fining", "yeast", "sulfite_running", "must", "wine",
)  # fmt: skip


class Rule(NamedTuple):
    """One declared rule of the trade."""

    name: str
    function: Callable[..., Any]
    inputs: Mapping[str, str]
    """Unit of each argument; "word" for one of some words."""
    unit: str
    words: str
    source: str
    valid: str
    example: Mapping[str, Any]


_RULES: dict[str, Rule] = {}


def rule(
    *,
    name: str,
    inputs: Mapping[str, str],
    unit: str,
    words: str,
    source: str,
    valid: str,
    example: Mapping[str, Any],
) -> Callable[[F], F]:
    """Declare a rule: its arguments' units, its result's unit, words, source, range, example."""

    def declare(function: F) -> F:
        _RULES[name] = Rule(name, function, inputs, unit, words, source, valid, example)
        return function

    return declare


def rules() -> dict[str, Rule]:
    """Return every rule by name."""
    for topic in TOPICS:
        importlib.import_module(f"winebench.trade.{topic}")
    return _RULES


def work(name: str, **arguments: Any) -> Workings:
    """Run a rule and return its workings.

    Raises:
        NotKnown: no such rule or argument, or values outside the rule's range.

    """
    found = _found(name)
    unknown = set(arguments) - set(found.inputs)
    if unknown:
        raise NotKnown(f'{name} has no "{min(unknown)}"; it takes {", ".join(found.inputs)}.')
    try:
        bound = inspect.signature(found.function).bind(**arguments)
    except TypeError:
        given = inspect.signature(found.function).parameters
        needed = [a for a in given if a not in arguments and given[a].default is given[a].empty]
        raise NotKnown(f"{name} also needs {', '.join(needed)}, as in: {_call(found)}") from None
    bound.apply_defaults()
    result = found.function(*bound.args, **bound.kwargs)
    inputs = tuple(
        Input(key, _shown(value), "" if found.inputs[key] in ("word", "1") else found.inputs[key])
        for key, value in bound.arguments.items()
    )
    return Workings(
        rule=found.name,
        words=found.words,
        inputs=inputs,
        result=_result_shown(result, found.unit),
        unit="" if found.unit == "1" else found.unit,
        source=found.source,
        values=tuple(float(v) for v in (result if isinstance(result, tuple) else (result,))),
    )


def listing() -> list[dict[str, Any]]:
    """Return every rule with its arguments' units, source, range and example, ready for JSON."""
    return [
        {
            **found._asdict(),
            "function": found.function.__name__,
            "gives": str(found.function.__doc__).splitlines()[0],
        }
        for found in rules().values()
    ]


def run_work(name: str | None, pairs: list[str]) -> Workings | str:
    """Run a rule from typed "key=value" words; without a name, return the list of rules.

    Raises:
        NotKnown: unknown rule or argument, unreadable value, or outside the range.

    """
    if name is None:
        return "\n".join(
            f"{r.name}  [{r.unit}]\n    {r.words}\n    {_call(r)}" for r in rules().values()
        )
    found = _found(name)
    arguments: dict[str, Any] = {}
    for pair in pairs:
        key, equals, text = pair.partition("=")
        key = _ALIASES.get(key, key)
        if not equals:
            raise NotKnown(f'"{pair}" is not key=value, as in: {_call(found)}')
        if key not in found.inputs:
            raise NotKnown(f'{name} has no "{key}"; it takes {", ".join(found.inputs)}.')
        arguments[key] = parse_argument(found, key, text)
    return work(name, **arguments)


_ALIASES = {"at": "celsius", "temp": "celsius", "volume": "litres"}


def parse_argument(found: Rule, name: str, text: str) -> Any:
    """Return a typed argument in the rule's own unit: "30 degC", "86 F", "5 gal US", "2,5".

    Raises:
        NotKnown: the text cannot be read in that unit.

    """
    unit = found.inputs[name]
    try:
        return text if unit == "word" else _number_in(unit, text.strip())
    except UnitsError as problem:
        raise NotKnown(f"{name} of {found.name} is in {unit}: {problem}") from problem


def _number_in(unit: str, text: str) -> float:
    lettered = bool(re.search(r"[A-Za-z]\W*$", text))
    if unit == "°C" and lettered:
        return Temperature(text).celsius
    if unit in ("L", "mL") and lettered:
        return Amount(text).litres(None) * (1000.0 if unit == "mL" else 1.0)
    if unit in ("g", "kg") and lettered:
        return Amount(text).grams() / (1000.0 if unit == "kg" else 1.0)
    if unit == "SG":
        return _gravity(text)
    plain = text.replace("m3", "m³")
    for said in (unit, unit.split(" ")[0], unit.split(" as ")[0]):
        if unit != "1" and plain.casefold().endswith(said.casefold()):
            plain = plain[: -len(said)].strip()
    return -parse_number(plain[1:]) if plain.startswith("-") else parse_number(plain)


def _gravity(text: str) -> float:
    """Return SG of "1.090", "1,090 SG" or "22 brix"; a syrup may be thicker than any must."""
    from winebench.trade.gravity import sg_from_brix  # gravity itself declares rules here

    if re.search(r"[A-Za-z]", text):
        gravity = Gravity(text)
        return gravity.value if gravity.scale == "SG" else sg_from_brix(gravity.value)
    value = parse_number(text)
    meant = gravity_meant(value)
    if value > _HEAVIEST_SG and meant:
        raise UnitsError(f'"{text}" is no gravity. Did you mean "{meant}"?')
    return value


_HEAVIEST_SG = 1.45


def _found(name: str) -> Rule:
    found = rules().get(name)
    if found is None:
        close = difflib.get_close_matches(name, rules(), n=1, cutoff=0.5)
        meant = f' Did you mean "{close[0]}"?' if close else ""
        raise NotKnown(f'there is no rule "{name}"; `winebench work` lists them.{meant}')
    return found


def _call(found: Rule) -> str:
    return " ".join([found.name, *(f"{key}={value}" for key, value in found.example.items())])


def _shown(value: Any) -> str:
    return f"{value:.6g}" if isinstance(value, float) else str(value)


# Decimals that a reading on each scale deserves; amounts get three figures.
_DECIMALS = {"SG": 4, "°Brix": 2, "°Oechsle": 1, "°Baumé": 1, "% vol": 1, "% mass": 2, "kg/m³": 2,
             "g/L": 1, "mg/L": 1, "mg": 0, "nD": 5, "bar": 1}  # fmt: skip


def _result_shown(value: Any, unit: str) -> str:
    if isinstance(value, Spread):
        figure, low, high = (_one_shown(v, unit) for v in value)
        return figure if low == high else f"{figure} ({low} to {high})"
    if isinstance(value, tuple):
        units = unit.split(", ") if ", " in unit else [unit] * len(value)
        return ", ".join(_one_shown(v, u) for v, u in zip(value, units, strict=True))
    return _one_shown(value, unit)


def _one_shown(value: Any, unit: str) -> str:
    if isinstance(value, int):
        return str(value)
    scale = next((known for known in _DECIMALS if unit.startswith(known)), None)
    if scale:
        return f"{value:.{_DECIMALS[scale]}f}"
    return f"{value:.0f}" if abs(value) >= 1000.0 else f"{value:.3g}"
