"""The register of rules: each declared beside its function, run by name with its workings."""

from __future__ import annotations

import difflib
import importlib
import inspect
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple, TypeVar

from winebench.trade import measured, typed
from winebench.trade.ranges import NotKnown
from winebench.trade.shown import shown, shown_input
from winebench.trade.workings import Input, Workings
from winebench.units import UnitsError

F = TypeVar("F", bound=Callable[..., Any])
TOPICS = (
    "gravity", "scales", "hydrometer", "refractometer", "must", "sugar", "sweetener", "ethanol",
    "alcohol", "wine", "acid", "sulfite", "sulfite_running", "sorbate", "nutrient", "yeast",
    "fining", "finings", "tannin", "blending", "sweetening", "sweetness", "bottling", "ageing",
    "kitchen",
)  # fmt: skip


class Rule(NamedTuple):
    """One declared rule of the trade."""

    name: str
    function: Callable[..., Any]
    inputs: Mapping[str, str]
    """Unit of each argument; "word" for one of some words, "any" for a scale of one's own."""
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
    """Run a rule and return its workings; an argument may be `measured.Measured`.

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
    result = measured.run(found.function, bound.arguments)
    inputs = tuple(
        Input(key, shown_input(value), _said(found.inputs[key]))
        for key, value in bound.arguments.items()
    )
    several = len(result.figures) > 1
    units = found.unit.split(", ") if ", " in found.unit else [found.unit] * len(result.figures)
    texts = shown(result, units)
    names = result.names if several else (found.name,)
    figures = tuple(map(Input, names, texts, map(_said, units)))
    in_words = ", ".join(f"{figure.value} {figure.unit}".rstrip() for figure in figures)
    whole = (*result.figures, *result.low, *result.high) if result.spread else result.figures
    return Workings(
        rule=found.name,
        words=found.words,
        inputs=inputs,
        result=in_words if several else texts[0],
        unit="" if several else _said(found.unit),
        source=found.source,
        valid=found.valid,
        values=tuple(map(float, whole)),
        low=tuple(map(float, result.low)),
        high=tuple(map(float, result.high)),
        figures=figures,
    )


def _said(unit: str) -> str:
    return "" if unit in ("word", "1", typed.ANY) else unit


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
        return "\n".join([_HOW, *map(_listed, rules().values())])
    found = _found(name)
    texts: dict[str, str] = {}
    for pair in pairs:
        key, equals, text = pair.partition("=")
        key = key.strip().casefold()
        key = _ALIASES.get(key, key)
        if not equals:
            raise NotKnown(f'"{pair}" is not key=value, as in: {_call(found)}')
        if key not in found.inputs:
            raise NotKnown(f'{found.name} has no "{key}"; it takes {", ".join(found.inputs)}.')
        if key in texts:
            raise NotKnown(f'"{key}" is given twice; give it once.')
        texts[key] = text
    typed.check_one_scale({key: t for key, t in texts.items() if found.inputs[key] == typed.ANY})
    return work(found.name, **{key: parse_argument(found, key, t) for key, t in texts.items()})


_HOW = """\
Each rule: what it gives, in words, what it takes, for which range, and an example. A number alone
is in the unit shown; others are read too: litres="5 gal US" celsius="68 F" sg="22 brix". A measured
value may have an uncertainty or be a range: og="1.090 +- 0.002" fg="0.994 to 0.998" (or -).
"""


def _listed(found: Rule) -> str:
    units = (f"{key} ({unit})" if _said(unit) else key for key, unit in found.inputs.items())
    return (
        f"{found.name}  [{found.unit}]\n    {found.words}\n    Takes {', '.join(units)}\n"
        f"    Valid: {found.valid}\n    {_call(found)}"
    )


_ALIASES = {"at": "celsius", "temp": "celsius", "volume": "litres"}


def parse_argument(found: Rule, name: str, text: str) -> Any:
    """Return a typed argument in the rule's own unit, as a number, `Measured` or a word.

    Raises:
        NotKnown: the text cannot be read in that unit.

    """
    unit = found.inputs[name]
    try:
        return text.strip() if unit == "word" else typed.read(unit, text)
    except UnitsError as problem:
        raise NotKnown(f"{name} of {found.name} is in {unit}: {problem}") from problem


def _found(name: str) -> Rule:
    found = rules().get(name.strip().casefold())
    if found is None:
        close = difflib.get_close_matches(name.casefold(), rules(), n=1, cutoff=0.5)
        meant = f' Did you mean "{close[0]}"?' if close else ""
        raise NotKnown(f'there is no rule "{name}"; `winebench work` lists them.{meant}')
    return found


def _call(found: Rule) -> str:
    return " ".join([found.name, *(f"{key}={value}" for key, value in found.example.items())])
