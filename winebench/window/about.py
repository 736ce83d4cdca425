"""What the Help menu tells: the keys worth knowing, and what this program is."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from winebench import __version__

_KEYS = (
    ("F2", "log a reading"),
    ("Shift+F2", "log several days"),
    ("Ctrl+R", "read a recipe card"),
    ("Ctrl+B", "shopping and pantry"),
    ("Ctrl+Shift+T", "reach the targets"),
    ("Ctrl+D", "do what is first today"),
    ("Ctrl+L", "add a line to the recipe"),
    ("Enter, Up, Down", "the next or previous line"),
    ("F4", "details of the line"),
    ("Ctrl+Delete", "take the line out"),
    ("Alt+Up, Alt+Down", "move the line"),
    ("F1", "workings of a figure or a step"),
    ("F6", "the other pane"),
    ("Ctrl+Z, Ctrl+Y", "undo, redo, of everything"),
)


def show_keys(parent: QWidget) -> None:
    """Show the keys worth knowing."""
    rows = "".join(f"<tr><td><b>{key}</b>&nbsp;&nbsp;</td><td>{does}</td></tr>"
                   for key, does in _KEYS)  # fmt: skip
    _tell(parent, "Keys", f"<table cellpadding=3>{rows}</table>")


def show_about(parent: QWidget) -> None:
    """Say what this is."""
    _tell(
        parent,
        "About Winebench",
        f"<p><b>Winebench {__version__}</b></p>"
        "<p>From a few pounds of fruit to a stable, labelled bottle.</p>"
        "<p>Free software under the MIT licence. Its figures guide; your nose, your hydrometer "
        "and your local rules decide.</p>",
    )


def _tell(parent: QWidget, title: str, html: str) -> None:
    box = QMessageBox(parent)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.setWindowTitle(title)
    box.setText(html)
    box.open()
