"""Print what each published table says of the rules: `python -m tests.trade.coverage`.

A Markdown table: quantity, rows, the source of the rows, largest difference found, and how much
the rows allow.
"""

from collections.abc import Iterator

from tests.trade.published import IS_THE_TABLE, NOT_A_RULE, n, rows, tolerance
from tests.trade.rule_of_quantity import RULES


def named(source: str) -> str:
    """Return a source without what it adds in brackets, or what comes after a leading one."""
    before = source.split("(")[0].strip(" ;,")
    return before or source.rpartition("; ")[0].rpartition("attributed to ")[2] or source


def lines() -> Iterator[str]:
    """Give the lines of the table, and after it what has no rule and why."""
    yield "| quantity | rows | outside check | unit | largest difference | allowed |"
    yield "| --- | ---: | --- | --- | ---: | ---: |"
    for quantity, rule in RULES.items():
        checked = [row for _, row in rows() if row["quantity"] == quantity]
        worst = max(abs(rule(row) - n(row["expected"])) for row in checked)
        sources = sorted({named(row["source"]) for row in checked})
        allowed = max(tolerance(row) for row in checked)
        source = "; ".join(sources[:2]).replace("|", "/")
        if quantity in IS_THE_TABLE:
            source += " (the rule is this table: a copy checked, no more)"
        unit = checked[0]["unit"]
        yield f"| {quantity} | {len(checked)} | {source} | {unit} | {worst:.2g} | {allowed:.2g} |"
    yield ""
    for reason, quantities in NOT_A_RULE.items():
        yield f"- No rule, {reason}: {', '.join(sorted(quantities))}."


if __name__ == "__main__":
    print("\n".join(lines()))
