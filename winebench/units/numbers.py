"""Numbers as a kitchen writes them: "3", "2,5", "3/4", "1 1/2" or "1½"."""

from __future__ import annotations

import re
from fractions import Fraction

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8",
    "⅝": "5/8", "⅞": "7/8", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6",
    "⅚": "5/6",
}  # fmt: skip
# "1-1/2" is how many recipes print 1 1/2.
NUMBER = r"\d{1,7}(?:\s+|-)\d{1,4}\s*/\s*\d{1,4}|\d{1,4}\s*/\s*\d{1,4}|\d{0,7}[.,]\d{1,6}|\d{1,7}"


class UnitsError(ValueError):
    """A quantity that cannot be read or converted; the message is for the person."""


def parse_number(text: str) -> float:
    """Return the number written as "3", "2,5", "2.5", "3/4", "1 1/2" or "1½".

    One comma or point is always the decimal sign; thousands stand before a small unit alone
    (`parts.without_thousands`).

    Raises:
        UnitsError: the text is not one such number.

    """
    plain = plain_text(text)
    if not re.fullmatch(NUMBER, plain, re.ASCII):
        raise UnitsError(f'"{text.strip()}" is not a number; write 3, 2.5, 2,5, 3/4 or 1 1/2.')
    whole = Fraction(0)
    for piece in re.sub(r"\s*/\s*", "/", plain.replace(",", ".").replace("-", " ")).split():
        if re.search(r"/0+$", piece):
            raise UnitsError(f'"{text.strip()}" divides by nothing.')
        whole += Fraction(piece)
    return float(whole)


def trimmed(value: float, digits: int) -> str:
    """Return the number with at most so many decimals, and none that is an idle 0."""
    text = f"{value + 0.0:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def plain_text(text: str) -> str:
    """Return the text with ½ as 1/2 and with single plain spaces."""
    for sign, written in _VULGAR.items():
        text = text.replace(sign, f" {written} ")
    text = re.sub(r"(?<=\d)·(?=\d)", ".", text)
    return " ".join(text.replace("⁄", "/").replace("\u00a0", " ").split())
