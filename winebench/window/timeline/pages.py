"""The pages of the timeline: the picture, the table or the log, one at a time."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtWidgets import QSizePolicy, QStackedWidget, QWidget


class Pages(QStackedWidget):
    """Show one page; the hidden ones ask for no height."""

    def __init__(self, pages: Mapping[str, QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pages = pages
        self.shown = ""
        """The name of the page that is shown."""
        for page in pages.values():
            self.addWidget(page)
        self.show_page(next(iter(pages)))

    def show_page(self, name: str) -> None:
        """Show the page of that name."""
        self.shown = name
        for each, page in self._pages.items():
            ask = QSizePolicy.Policy.Expanding if each == name else QSizePolicy.Policy.Ignored
            policy = page.sizePolicy()
            policy.setVerticalPolicy(ask)
            page.setSizePolicy(policy)
        self.setCurrentWidget(self._pages[name])
