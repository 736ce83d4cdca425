"""The steps of a batch, one declared rule a file; a new file is a new step."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from winebench.plan.steps.rule import Rule


@cache
def rules() -> dict[str, Rule]:
    """Return every rule of this folder by its key, in the order of the steps."""
    modules = (import_module(f"{__name__}.{found.name}") for found in iter_modules(__path__))
    found = [module.RULE for module in modules if isinstance(getattr(module, "RULE", None), Rule)]
    return {rule.key: rule for rule in sorted(found, key=lambda rule: rule.number)}
