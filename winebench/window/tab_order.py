"""Tab goes through the page as it is read, whenever its widgets were made.

Qt's own order is the order of making; rows that come with a recipe, and the timeline that comes
after the first paint, would be last in it.
"""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLayout, QScrollArea, QSplitter, QWidget


def neighbour(parts: tuple[QWidget, ...], focus: QWidget | None, forward: bool) -> QWidget | None:
    """Return the widget in `parts` that Tab (or Shift+Tab) goes to from `focus`, round the ends."""
    stops = [widget for part in parts for widget in as_read(part) if _takes_tab(widget)]
    if not stops:
        return None
    if focus not in stops:
        return stops[0 if forward else -1]
    return stops[(stops.index(focus) + (1 if forward else -1)) % len(stops)]


def as_read(widget: QWidget) -> Iterator[QWidget]:
    """Give the widget and all that is visible in it, in the order of its layouts."""
    if not widget.isVisible():
        return
    yield widget
    for child in _children(widget):
        yield from as_read(child)


def _children(widget: QWidget) -> Iterator[QWidget]:
    inside: tuple[QWidget | None, ...]
    if isinstance(widget, QScrollArea):
        inside = (widget.widget(),)
    elif isinstance(widget, QSplitter):
        inside = tuple(widget.widget(place) for place in range(widget.count()))
    else:
        inside = tuple(_laid_out(widget.layout()))
    yield from (child for child in inside if child is not None)


def _laid_out(layout: QLayout | None) -> Iterator[QWidget]:
    items = [] if layout is None else [layout.itemAt(place) for place in range(layout.count())]
    for item in items:
        if item is None:
            continue
        widget = item.widget()
        if widget is not None:
            yield widget
        else:
            yield from _laid_out(item.layout())


def _takes_tab(widget: QWidget) -> bool:
    policy = widget.focusPolicy().value & Qt.FocusPolicy.TabFocus.value
    return bool(policy) and widget.isEnabled() and widget.focusProxy() is None
