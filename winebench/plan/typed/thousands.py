"""Amounts with a comma or point before three digits: thousands, or decimals of a small dose."""

from __future__ import annotations

from winebench.plan.typed.grouped import grouped
from winebench.plan.typed.made import Read
from winebench.plan.typed.remarks import Asked, Remark, written
from winebench.units import Amount

_BY_WEIGHT = ("fruit", "sugar", "water")
"""What nobody weighs to the thousandth of a gram: there it is thousands."""


def without_thousands(read: Read) -> Read:
    """Return the line with "1.000 g" of fruit, sugar or water as 1000 g, which is said.

    Raises:
        Asked: it is something of which either can be meant, as in "1,250 g tannin".

    """
    amount, name = read.found.amount, read.words.name
    both = grouped(amount.text)
    if both is None:
        return read
    if read.kind in _BY_WEIGHT:
        ways = (written(f"{both.decimal} {name}"),)
        said = Remark(sentence=f"{amount.text} is read as {both.whole}.", ways=ways)
        remarks = read.found.remarks if both.mark == "," else (*read.found.remarks, said)
        found = read.found._replace(amount=Amount(both.whole), remarks=remarks)
        return read._replace(found=found)
    if both.mark == "." and not both.is_round:
        return read  # a small dose, weighed to the milligram
    raise Asked(
        f"{amount.text} can be {both.whole} or {both.decimal}: which one is it?",
        written(f"{both.whole} {name}"),
        written(f"{both.decimal} {name}"),
    )
