"""The example that each rule brings with it, for tests that put a rule to the question."""

from __future__ import annotations

import inspect

from winebench.trade.rules import Rule


def usual(rule: Rule, argument: str) -> float:
    """Return the argument's value in the rule's example, else what it is when nobody says."""
    default = inspect.signature(rule.function).parameters[argument].default
    return float(rule.example.get(argument, default))
