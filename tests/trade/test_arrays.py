"""An array gives what its elements give, anywhere in the range that a rule accepts."""

import inspect

import numpy as np
import pytest

import winebench.catalog.rules  # noqa: F401 - it declares rules too
from tests.trade.examples import usual
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import rules

RULES = rules()
ARRAYS = [
    (name, argument)
    for name, rule in RULES.items()
    for argument, given in inspect.signature(rule.function).parameters.items()
    if given.annotation == "Numbers"
]
SHARES = [0.0, 1e-9, 0.01, 0.1, 0.237, 0.5, 0.777, 0.9, 0.999, 1.0]


def edge(rule, argument, inside, outside):
    """Find by halves where the rule stops to answer."""
    for _ in range(50):
        middle = (inside + outside) / 2.0
        try:
            rule.function(**{**rule.example, argument: middle})
            inside = middle
        except NotKnown:
            outside = middle
    return inside


def figures(result):
    return result if isinstance(result, tuple) else (result,)


@pytest.mark.parametrize(("name", "argument"), ARRAYS)
@pytest.mark.filterwarnings("error")
def test_from_edge_to_edge_an_array_is_its_elements(name, argument):
    rule = RULES[name]
    middle = usual(rule, argument)
    low, high = edge(rule, argument, middle, -1e7), edge(rule, argument, middle, 1e10)
    values = np.array([low + share * (high - low) for share in SHARES])
    together = figures(rule.function(**{**rule.example, argument: values}))
    for place, value in enumerate(values):
        try:
            alone = figures(rule.function(**{**rule.example, argument: float(value)}))
        except NotKnown:
            assert np.isnan([np.broadcast_to(many, values.shape)[place] for many in together]).any()
            continue
        for many, one in zip(together, alone, strict=True):
            assert np.broadcast_to(many, values.shape)[place] == pytest.approx(one, rel=1e-9)
