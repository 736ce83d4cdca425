"""The style sheet, built from the palette's roles."""

from __future__ import annotations

from string import Template

from winebench.window.theme import Palette

_RULES = Template("""
* { outline: none; }
QMainWindow, QDialog, QWidget#page { background: $page; color: $ink; }
QToolTip { background: $card; color: $ink; border: 1px solid $rule; padding: 4px 6px; }
QLabel[role="muted"] { color: $muted; }
QLabel[role="fruit"] { color: $fruit; font-weight: 600; }
QLabel[role="strong"] { font-weight: 600; }
QLabel[role="asking"] { background: $straw_wash; border: 1px solid $straw; border-radius: 4px;
  padding: 3px 8px; }
QFrame#readingBar, QFrame#stepCard { background: $card; border: 1px solid $rule;
  border-radius: 8px; }
QMenuBar { background: $page; padding: 2px 8px; }
QMenuBar::item { padding: 4px 8px; border-radius: 4px; background: transparent; }
QMenuBar::item:selected { background: $wash; color: $ink; }
QMenu { background: $card; border: 1px solid $rule; padding: 4px; }
QMenu::item { padding: 5px 28px 5px 22px; border-radius: 4px; }
QMenu::item:selected { background: $wash; color: $ink; }
QMenu::item:disabled { color: $muted; }
QMenu::separator { height: 1px; background: $rule; margin: 4px 6px; }
QLineEdit { placeholder-text-color: $muted; }
QLineEdit, QComboBox, QPlainTextEdit {
  background: $card; color: $ink; border: 1px solid $edge; border-radius: 4px;
  padding: 2px 6px; selection-background-color: $fruit; selection-color: $on_fruit; }
QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus { border: 1px solid $fruit; }
QLineEdit[unread="true"] { border: 1px solid $straw; background: $straw_wash; }
QLineEdit[cell="true"] { background: transparent; border: 1px solid transparent;
  border-radius: 3px; padding: 1px 1px; }
QLineEdit[cell="true"]:hover { border: 1px solid $rule; }
QLineEdit[cell="true"]:focus { background: $card; border: 1px solid $fruit; }
QLineEdit[cell="true"][unread="true"] { border: 1px solid $straw; background: $straw_wash; }
Choice::drop-down { border: none; width: 18px; }
Choice::down-arrow { image: none; }
QListView#offers { background: $card; color: $ink; border: 1px solid $rule; }
QListView#offers::item { padding: 4px 6px; }
QListView#offers::item:selected { background: $wash; color: $ink; }
QComboBox QAbstractItemView { background: $card; color: $ink; border: 1px solid $rule;
  selection-background-color: $wash; selection-color: $ink; }
QPushButton { background: $card; color: $ink; border: 1px solid $rule; border-radius: 6px;
  padding: 4px 12px; }
QPushButton:hover { background: $wash; }
QPushButton:focus { border: 1px solid $fruit; }
QPushButton:disabled { color: $muted; }
QPushButton[role="act"] { background: $fruit; color: $on_fruit; border: 1px solid $fruit;
  font-weight: 600; }
QPushButton[role="act"]:hover, QPushButton[role="act"]:focus { border: 2px solid $ink;
  padding: 3px 11px; }
QPushButton[role="act"]:disabled { background: $sunken; color: $muted; border-color: $rule; }
QPushButton[role="choice"] { border-radius: 13px; padding: 3px 12px; }
QPushButton[role="choice"]:checked { background: $fruit; color: $on_fruit; border-color: $fruit; }
QPushButton[role="choice"]:focus { border: 2px solid $ink; padding: 2px 11px; }
QPushButton[role="quiet"], QToolButton { background: transparent; border: 1px solid transparent;
  color: $fruit; font-weight: 600; border-radius: 6px; padding: 4px 8px; }
QPushButton[role="quiet"]:hover, QToolButton:hover { background: $wash; }
QPushButton[role="quiet"]:focus, QToolButton:focus { border: 1px solid $fruit; }
QCheckBox:focus, QRadioButton:focus { color: $fruit; }
QCheckBox::indicator:unchecked { width: 13px; height: 13px; border: 1px solid $muted;
  border-radius: 2px; background: $card; }
QScrollArea { background: $page; border: none; }
QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle { background: $rule; border-radius: 4px; min-height: 24px; min-width: 24px;
  margin: 1px; }
QScrollBar::handle:hover { background: $muted; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSplitter::handle { background: $rule; }
QSplitter::handle:hover, QSplitter::handle:focus { background: $fruit; }
QTableView { background: $card; color: $ink; border: 1px solid $rule; gridline-color: $rule;
  selection-background-color: $wash; selection-color: $ink; }
QTableView::item { padding: 0 6px; }
QHeaderView::section { background: $sunken; color: $muted; border: none; padding: 3px 9px; }
""")


def stylesheet(palette: Palette) -> str:
    """Return the application's style sheet in the colours of the palette."""
    names = (
        "page", "card", "ink", "muted", "rule", "fruit", "leaf", "straw", "sky", "wash",
        "on_fruit", "sunken", "edge", "straw_wash", "leaf_wash",
    )  # fmt: skip
    return _RULES.substitute({name: getattr(palette, name).name() for name in names})
