"""What every quantity keeps: the text as it was typed."""

from __future__ import annotations

from typing import Self


class Typed:
    """A quantity exactly as typed: immutable, equal by its text, pickled as its text."""

    __slots__ = ("text",)
    text: str

    def __init__(self, text: str) -> None:
        object.__setattr__(self, "text", text)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} cannot be changed")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.text == getattr(other, "text", None)

    def __hash__(self) -> int:
        return hash((type(self), self.text))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r})"

    def __reduce__(self) -> tuple[type[Self], tuple[str]]:
        return type(self), (self.text,)
