"""What every part of a project is made of."""

from __future__ import annotations

import msgspec


class Part(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Base of every part of a project: immutable, strict about unknown keys."""
