"""Things by the can, jar or bag: "2 x 29 oz cans peaches", "1 tin (820 g) prunes"."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.cans import refuse_numbered_can
from winebench.plan.typed.grouped import grouped
from winebench.plan.typed.number_words import UNIT, digits
from winebench.plan.typed.remarks import Asked, Remark, written
from winebench.units import NUMBER, SPELLINGS, Amount, UnitsError, parse_number

_CANS = r"(?:cans?|tins?)"
_PACK = (
    rf"(?:{_CANS}|jars?|cartons?|bags?|boxe?s?|bottles?|punnets?|tubs?|containers?|pouche?s?|tubes?|"
    r"sacks?|crates?|baskets?|cases?|blocks?|pots?|packs?|packages?|packets?|trays?|jugs?|tetrapacks?)"
)
_EACH = rf"(?P<amount>(?:{NUMBER})[\s-]*{UNIT}(?:\s+(?:US|imperial))?)\b\.?"
_NUMBER = r"(?P<number>\d{1,3}|\d{0,2}\.5|1/2)"
_SIZED = re.compile(
    rf"(?:{_NUMBER}\s*(?P<times>[x×*]|\s(?!\d+/\d))\s*)?\(?{_EACH}\)?(?:[\s-]+sized?)?"
    rf"\s*(?P<pack>{_PACK})?\b\.?"
    r"(?:\s+(?:each\s+)?(?:of\s+)?)(?P<name>[^\d\s].*)",
    re.IGNORECASE | re.ASCII,
)
"""2 x 29 oz cans peaches; 2 29-oz cans of peaches; a 29 oz can of peaches."""
_THEN_SIZE = re.compile(
    rf"{_NUMBER}\s+(?:(?:large|small|big|medium|standard)\s+)?(?P<pack>{_PACK})\b\.?\s*"
    rf"(?:(?:of\s+)?(?P<before>[^\d(,]*?))[\s,]*(?P<open>\()?\s*{_EACH}(?:\s*/\s*(?:{NUMBER})\s*{UNIT}\b)?"
    rf"\s*(?P<each>each|apiece)?\s*(?(open)\))\s*(?:of\s+)?(?P<after>.*)",
    re.IGNORECASE | re.ASCII,
)
"""1 tin (820 g) prunes; 2 cans peaches (29 oz each); 2 cans peaches, 29 oz each."""
_NO_SIZE = re.compile(
    rf"{_NUMBER}\s+(?:(?:large|small|big|medium|standard)\s+)?(?P<pack>{_PACK})\b\.?\s+(?:of\s+)?"
    r"(?P<name>[^\d\s].*)",
    re.IGNORECASE | re.ASCII,
)
_ANY = re.compile(rf"(?i)\d\s*[x×*]\s*\d|\b{_PACK}\b|yeast")
_PACKETS = re.compile(r"(?i)\b(?:packs?|packages?|pouche?s?)\b")
_POWDERS = re.compile(
    r"(?i)\b(?:\w*hefe|levure|yeast|nutrient|enzyme|pectinase|tablets?|bentonite|finings?|tannin|acid|"
    r"sulph?ite|metabisulph?ite|sorbate)\b"
)
"""What is bought by the packet: its packets are counted."""
_VIALS = re.compile(
    r"(?P<number>\d{1,2})\s+(?:vials?|tubes?|phials?|slants?|jars?|bottles?|cultures?|cakes?|cubes?)\s+"
    r"(?:of\s+)?(?P<name>(?:[\w'-]+\s+){0,3}yeast)",
    re.IGNORECASE,
)
_POURED = re.compile(r"(?i)(?:(?!\bin\b).)*\b(?:juice|concentrate|syrup)\b")


class Unpacked(NamedTuple):
    """The words with what the packs hold altogether in place of the packs."""

    text: str
    note: str = ""
    """The packs as typed, to be kept beside the line."""
    remarks: tuple[Remark, ...] = ()


def unpacked(text: str) -> Unpacked:
    """Return "58 oz canned peaches" of "2 x 29 oz cans peaches"; other words as they are.

    Raises:
        Asked: the packs say no weight.

    """
    if not _ANY.search(text):
        return Unpacked(text)
    refuse_numbered_can(text)
    plain = re.sub(rf"(?i)^half\s+(?:an?\s+)?(?={_PACK}\b)", "1/2 ", digits(text))
    plain = re.sub(r"(?i)^([^x×*]+?)\s+[x×*]\s*(\d{1,2})$", r"\2 x \1", plain)
    plain = re.sub(rf"(?i)^([^x×*\d]+?)\s+[x×*]\s*(\d{{1,2}}\s+{_PACK})\b\s*", r"\2 \1 ", plain)
    plain = re.sub(rf"(?i)^an?\s+(?=\d|(?:\w+\s+)?{_PACK}\b)", "1 ", plain)
    vial = _VIALS.fullmatch(plain)
    if vial is not None:
        raise Asked(
            f'"{text}": how many packets of dry yeast is that? Its label says what it serves.',
            written(
                f"{vial['number']} packet{'' if vial['number'] == '1' else 's'} {vial['name']}"
            ),
        )
    if _POWDERS.search(plain):
        return Unpacked(_PACKETS.sub(_as_packet, text) if _PACKETS.search(text) else text)
    sized = _SIZED.fullmatch(plain)
    if sized is not None and ((sized["times"] or "").strip() or sized["pack"]):
        return _together(sized, sized["name"], plain, each=True)
    then = _THEN_SIZE.fullmatch(plain)
    if then is not None and (then["before"] or then["after"]):
        name = " ".join(filter(None, (then["before"].strip(), then["after"].strip())))
        return _together(then, name, plain, each=bool(then["each"]))
    bare = _NO_SIZE.fullmatch(plain)
    if bare is not None:
        pack = re.sub(r"(?<=[xh])es$|s$", "", bare["pack"].lower())
        raise Asked(
            f'"{text}": how much does a {pack} hold? The label says; write such as '
            f"{bare['number']} x 400 g {bare['pack']} {bare['name']}."
        )
    return Unpacked(text)


def _as_packet(found: re.Match[str]) -> str:
    one = not found[0].lower().endswith("s")
    return "packet" if one else "packets"


def _together(found: re.Match[str], name: str, plain: str, *, each: bool) -> Unpacked:
    number = parse_number(found["number"]) if found["number"] else 1.0
    part = _one_part(found["amount"])
    if part is None or number <= 0:
        return Unpacked(plain)
    size, unit = part
    whole = f"{number * size:g}" if _metric(unit) else fraction_text(number * size)
    pack = found["pack"] or ""
    if re.fullmatch(_CANS, pack, re.IGNORECASE) and not _POURED.match(name):
        name = f"canned {name}"
    note = f"{found['number']} x {found['amount']} {pack}".strip() if number != 1 else pack
    text = f"{whole} {unit} {name}"
    return Unpacked(text, note, tuple(_said(found, name, whole, number, each=each)))


def _one_part(text: str) -> tuple[float, str] | None:
    spaced = re.sub(r"(?<=\d)\s*-\s*(?=[a-zA-Z])", " ", text)
    both = grouped(spaced)
    try:
        parts = Amount(both.whole if both is not None else spaced).parts
    except UnitsError:
        return None
    unit = re.sub(r"^[\d\s.,/-]+", "", spaced).strip(" .")
    return (parts[0].number, unit) if len(parts) == 1 else None


def _metric(unit: str) -> bool:
    return SPELLINGS.get(unit.lower()) in ("kg", "g", "mg", "L", "dL", "cL", "mL")


def _said(
    found: re.Match[str], name: str, whole: str, number: float, *, each: bool
) -> list[Remark]:
    unit = SPELLINGS.get((_one_part(found["amount"]) or (0.0, ""))[1].lower(), "")
    said = []
    if not each and number != 1:
        total = written(f"{found['amount']} {name}")
        said.append(Remark(
            sentence=f"{found['amount']} is read as what each holds: {whole} {unit} altogether.",
            ways=(total,),
        ))  # fmt: skip
    if unit == "oz" and _POURED.match(name):
        said.append(Remark(
            sentence=f"{whole} oz is read as weight; of a liquid, fluid ounces may be meant.",
            ways=(written(f"{whole} fl oz {name}"),),
        ))  # fmt: skip
    return said
