"""Winebench: from a few pounds of fruit to a stable, labelled wine."""

__version__ = "0.1.0"
