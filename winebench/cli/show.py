"""Commands that show the worked-out plan, as text for a terminal or as JSON."""

from __future__ import annotations

import argparse
import io
import sys
import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

from winebench.plan.outlook import Caution, Outlook, StepOutlook

WIDTH = 80
_MARKS = {
    "done": "x",
    "due": ">",
    "held": "#",
    "expected": "o",
    "missed": "!",
    "skipped": "-",
    "later": ".",
}


def outlook(arguments: argparse.Namespace) -> int:
    """Print the outlook of FILE or a sample."""
    from msgspec.structs import replace

    from winebench.cli.projects import chosen, plan

    seen_from = chosen(arguments)
    seen = replace(plan(seen_from.project, seen_from.at), looks_back=seen_from.back)
    if arguments.json:
        print_json(seen)
    else:
        print("\n".join(as_text(seen)))
    return 0


def samples(arguments: argparse.Namespace) -> int:
    """List the bundled samples."""
    from winebench.store.samples import samples as bundled

    for sample in bundled():
        print(f"{sample.name:26} {sample.about}")
    return 0


def print_json(value: Any) -> None:
    """Print one JSON document in UTF-8; quantities appear as they were typed."""
    import msgspec

    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(encoding="utf-8")  # as JSON has it (RFC 8259), whatever the terminal
    encoded = msgspec.json.encode(value, enc_hook=lambda amount: amount.text)
    print(msgspec.json.format(encoded, indent=2).decode())


def as_text(seen: Outlook) -> Iterator[str]:
    """Give the lines of the whole plan, at most 80 columns wide."""
    yield f"{seen.name} — {seen.style}, {seen.make_text}"
    yield f"as of {seen.at:%A %d %B %Y, %H:%M}"
    if seen.looks_back:
        yield from wrapped("", seen.looks_back)
    yield ""
    yield "TODAY"
    for item in seen.today:
        yield from wrapped(f"  {item.title}: ", item.detail)
    if not seen.today:
        yield "  Nothing is due."
    yield ""
    yield from recipe_lines(seen)
    yield ""
    yield "THE MUST IT MAKES" + ("" if seen.must.measured else " (typical fruit; measure yours)")
    for want in seen.must.wants:
        if want.key == "gravity" and seen.must.gravity.value != want.actual.value:
            yield f"  {'At pitching':16} {ranged(seen.must.gravity):24} before any sugar is fed"
        yield f"  {want.name:16} {ranged(want.actual):24} {want.want_text}"
    for vessel in seen.vessels:
        yield from wrapped(f"  {vessel.name}: ", f"{vessel.headline}, {vessel.detail}")
    yield from wrapped("  ", seen.bottles.sentence)
    yield ""
    yield from _cautions("WATCH", seen.cautions)
    if seen.readings:
        yield "READINGS"
        for reading in seen.readings:
            yield from wrapped(f"  {reading.at:%d %b %H:%M} ", reading.words)
        yield ""
    if seen.forecast:
        yield "FORECAST"
        yield from wrapped("  ", seen.forecast.sentence)
        for crossing in seen.forecast.crossings:
            yield from wrapped("  ", crossing.sentence)
        if seen.forecast.learned:
            yield from wrapped("  ", seen.forecast.learned)
        yield ""
    if seen.stuck:
        from winebench.cli.standstill import standstill_lines

        yield from standstill_lines(seen.stuck, wrapped)
    yield "STEPS  (x done, > due, # held, o expected, ! missed, - not needed or passed, . later)"
    for step in seen.steps:
        yield from _step(step)
    yield ""
    for line in seen.safety:
        yield from wrapped("", line)


def recipe_lines(seen: Outlook) -> Iterator[str]:
    """Give the recipe as a table: as written, scaled, how to measure."""
    yield f"RECIPE  as written for {seen.basis_text}, scaled for {seen.make_text}"
    for line in seen.lines:
        scaled = f"{line.scaled.text} {line.scaled.text_unit}".strip()
        off = line.measure_error_percent
        error = f" ({off:+.1f} %)" if off is not None and abs(off) >= 0.05 else ""
        yield f"  {line.name:30.30} {line.as_written:>14} {scaled:>12}  {line.measure}{error}"
        for caution in line.cautions:
            yield from wrapped("    ! ", f"{caution.sentence} {caution.detail}")


def vessel_lines(seen: Outlook, said: Sequence[str]) -> Iterator[str]:
    """Give each vessel with its filling, what was said of them, and the cautions about them."""
    yield "IN"
    for vessel in seen.vessels:
        yield from wrapped(f"  {vessel.name}: ", f"{vessel.headline} · {vessel.detail}")
    for sentence in said:
        yield from wrapped("  ", sentence)
    for caution in seen.cautions:
        if caution.about == "vessels":
            yield from wrapped(f"  {caution.severity}: ", f"{caution.sentence} {caution.detail}")


def _cautions(title: str, cautions: tuple[Caution, ...]) -> Iterator[str]:
    if cautions:
        yield title
        for caution in cautions:
            yield from wrapped(f"  {caution.severity}: ", f"{caution.sentence} {caution.detail}")
        yield ""


def _step(step: StepOutlook) -> Iterator[str]:
    yield f"  {_MARKS[step.state]} {f'{step.name} [{step.key}]':44} {step.when}"[: WIDTH + 20]
    if step.state not in ("done", "skipped"):
        yield from wrapped("      ", step.reason)
    if step.moved:
        yield from wrapped("      ", step.moved.sentence)


def ranged(figure: Any) -> str:
    """Return a figure with its unit and, where it has one, its range."""
    text = f"{figure.text} {figure.text_unit}".strip()
    if figure.low is None or figure.high is None or figure.text_unit != figure.unit:
        return text
    digits = len(figure.text.partition(".")[2])
    return f"{text} ({figure.low:.{digits}f}–{figure.high:.{digits}f})"


def wrapped(lead: str, text: str) -> list[str]:
    """Return the text behind its lead in lines of a terminal's width."""
    indent = " " * min(len(lead), 6)
    return textwrap.wrap(text.strip(), WIDTH, initial_indent=lead, subsequent_indent=indent) or [
        lead.rstrip()
    ]
