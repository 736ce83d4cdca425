"""The open document without a window: edits, undo, saving, and copies of unsaved work."""

from winebench.session.changes import Changes
from winebench.session.session import Session

__all__ = ["Changes", "Session"]
