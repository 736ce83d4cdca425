"""The one palette: widgets ask for roles, and the system's dark and contrast settings lead."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

BASE_PIXELS = 13
SMALL_PIXELS = 11.5
_USUAL_POINTS = 11.0
"""Largest interface font, in points, that systems set by default; more is a wish for more."""


def mix(under: QColor, over: QColor, share: float) -> QColor:
    """Return `under` with `share` (0 to 1) of `over` laid on it, opaque."""
    rest = 1.0 - share
    return QColor(
        round(under.red() * rest + over.red() * share),
        round(under.green() * rest + over.green() * share),
        round(under.blue() * rest + over.blue() * share),
    )


@dataclass(frozen=True, kw_only=True)
class Palette:
    """Colours by role. Text may be ink or muted anywhere, fruit or leaf on page and card."""

    dark: bool
    page: QColor
    card: QColor
    ink: QColor
    muted: QColor
    rule: QColor
    fruit: QColor
    """The one accent: actions, the wine, "yours to do"."""
    leaf: QColor
    """Done, and the wanted band."""
    straw: QColor
    """Caution and held; for shapes, never for text."""
    sky: QColor
    """Now."""
    wash: QColor
    """Behind today's strip and what is chosen."""

    @property
    def on_fruit(self) -> QColor:
        """Return the ink for words on a fruit-coloured button."""
        return self.page if self.dark else self.card

    @property
    def sunken(self) -> QColor:
        """Return the ground of the foot, the make row and the empty track of a bar."""
        return mix(self.page, self.rule, 0.38)

    @property
    def edge(self) -> QColor:
        """Return the outline of a field: at least 3 to 1 on its ground, so that it is seen."""
        return mix(self.rule, self.muted, 0.7)

    @property
    def straw_wash(self) -> QColor:
        """Return the ground of a caution."""
        return mix(self.card, self.straw, 0.11)

    @property
    def leaf_wash(self) -> QColor:
        """Return the fill of a wanted band."""
        return mix(self.card, self.leaf, 0.24)

    @property
    def wine(self) -> QColor:
        """Return the fill of a vessel."""
        return mix(self.page, self.fruit, 0.55)


LIGHT = Palette(
    dark=False,
    page=QColor("#FAF7F2"),
    card=QColor("#FFFFFF"),
    ink=QColor("#2B2530"),
    muted=QColor("#6E6673"),
    rule=QColor("#DDD5CB"),
    fruit=QColor("#8A2F55"),
    leaf=QColor("#2F6B55"),
    straw=QColor("#B77811"),
    sky=QColor("#3B6EA5"),
    wash=QColor("#F3E7EC"),
)
DARK = Palette(
    dark=True,
    page=QColor("#211D25"),
    card=QColor("#2B2630"),
    ink=QColor("#EFEAF2"),
    muted=QColor("#A79FAE"),
    rule=QColor("#453E4C"),
    fruit=QColor("#E58BAE"),
    leaf=QColor("#79C2A4"),
    straw=QColor("#E0B25C"),
    sky=QColor("#85B3E6"),
    wash=QColor("#33242C"),
)


def system_is_dark() -> bool:
    """Return whether the system asks for dark windows now."""
    return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark


def _more_contrast(palette: Palette) -> Palette:
    return replace(palette, muted=palette.ink, rule=palette.muted)


class Theme(QObject):
    """The palette in force; `changed` fires after it became another one."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._chosen: bool | None = None
        self.palette = LIGHT
        hints = QGuiApplication.styleHints()
        hints.colorSchemeChanged.connect(self._follow)
        hints.accessibility().contrastPreferenceChanged.connect(self._follow)
        self._follow()

    def choose(self, dark: bool | None) -> None:
        """Use dark or light whatever the system says; None follows the system."""
        self._chosen = dark
        self._follow()

    @property
    def chosen(self) -> bool | None:
        """Return the person's own choice: dark, light or None (the system's)."""
        return self._chosen

    def _follow(self) -> None:
        hints = QGuiApplication.styleHints()
        dark = self._chosen
        if dark is None:
            dark = system_is_dark()
        palette = DARK if dark else LIGHT
        if hints.accessibility().contrastPreference() == Qt.ContrastPreference.HighContrast:
            palette = _more_contrast(palette)
        if palette != self.palette or not self.property("dressed"):
            self.palette = palette
            self._dress()
            self.changed.emit()

    def _dress(self) -> None:
        from winebench.window.stylesheet import stylesheet

        application = QApplication.instance()
        if isinstance(application, QApplication):
            self.setProperty("dressed", True)
            application.setPalette(qt_palette(self.palette))
            application.setStyleSheet(stylesheet(self.palette))

    def base_font(self) -> QFont:
        """Return the system's interface font at the window's base size."""
        font = QFont(QGuiApplication.font())
        return self._sized(font, BASE_PIXELS)

    def small_font(self, font: QFont | None = None) -> QFont:
        """Return the font (the base font) at the small size, still readable."""
        return self._sized(QFont(font or QGuiApplication.font()), SMALL_PIXELS)

    def heading_font(self, pixels: float = 15) -> QFont:
        """Return the semibold font of a heading."""
        font = self._sized(QFont(QGuiApplication.font()), pixels)
        font.setWeight(QFont.Weight.DemiBold)
        return font

    def _sized(self, font: QFont, pixels: float) -> QFont:
        font.setPixelSize(round(pixels * self.magnified()))
        return font

    @staticmethod
    @cache
    def magnified() -> float:
        """Return how much larger than usual the system's own font is set, never below 1."""
        return max(1.0, QGuiApplication.font().pointSizeF() / _USUAL_POINTS)


def qt_palette(palette: Palette) -> QPalette:
    """Return Qt's palette for what the style sheet does not reach: menus, dialogs, carets."""
    qt = QPalette()
    role = QPalette.ColorRole
    for name, colour in (
        (role.Window, palette.page),
        (role.Base, palette.card),
        (role.AlternateBase, palette.sunken),
        (role.Button, palette.card),
        (role.ToolTipBase, palette.card),
        (role.WindowText, palette.ink),
        (role.Text, palette.ink),
        (role.ButtonText, palette.ink),
        (role.ToolTipText, palette.ink),
        (role.PlaceholderText, palette.muted),
        (role.Mid, palette.rule),
        (role.Highlight, palette.fruit),
        (role.HighlightedText, palette.on_fruit),
        (role.Link, palette.fruit),
        (role.Accent, palette.fruit),
    ):
        qt.setColor(name, colour)
    for name in (role.WindowText, role.Text, role.ButtonText):
        qt.setColor(QPalette.ColorGroup.Disabled, name, palette.muted)
    return qt


@cache
def theme() -> Theme:
    """Return the program's one theme; needs a QApplication."""
    return Theme()
