"""Reach the targets: any of the amounts can be the unknown, any of the targets can be held."""

from winebench.plan.solve.answer import solve
from winebench.plan.solve.shapes import Answer, Ask, ChangedAmount, Compared, SolveError, Target
from winebench.plan.solve.targets import usual_hold, usual_values

__all__ = [
    "Answer",
    "Ask",
    "ChangedAmount",
    "Compared",
    "SolveError",
    "Target",
    "solve",
    "usual_hold",
    "usual_values",
]
