"""What the Project menu does: new, open, save, samples and kept work. No question loses work."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, Qt

from winebench.model.new_project import in_the_kitchen_of, new_project
from winebench.model.project import Project
from winebench.plan.days import short_date
from winebench.session import Session
from winebench.store import recent, recovery
from winebench.store.errors import StoreError
from winebench.store.file_names import file_name
from winebench.store.project_file import SUFFIX
from winebench.store.settings import load_settings, save_settings
from winebench.units import GallonCountry
from winebench.window.beginnings import is_like_a_sample, opened, region_gallon, sample_copy
from winebench.window.file_dialog import ask_for_files
from winebench.window.neighbours import Neighbours
from winebench.window.new_dialog import GallonDialog

if TYPE_CHECKING:
    from winebench.plan.handed_down.shapes import CardReading
    from winebench.window.main_window import MainWindow

_FILTER = f"Winebench projects (*{SUFFIX});;All files (*)"


class Files(QObject):
    """Open and save for one window; the work that is left is kept first."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._document = window.document
        self.aside: list[Session] = []
        """Unnamed work of this run that another project took the place of."""
        self._taken_in = ""
        self._document.edited.connect(lambda _changes: self._put_by_taken_in())
        self.neighbours = Neighbours(window.document, window.banner, self)

    # --- opening -----------------------------------------------------------------------------

    def new(self) -> None:
        """Start an empty project; whose gallon is asked the first time only."""
        settings = load_settings()
        if settings.gallon is not None:
            self._start_new(settings.gallon)
            return
        dialog = GallonDialog(region_gallon(), self._window)
        dialog.chosen.connect(self._settle_gallon)
        dialog.open()

    def _settle_gallon(self, country: GallonCountry) -> None:
        save_settings(msgspec.structs.replace(load_settings(), gallon=country))
        self._start_new(country)

    def _start_new(self, gallon: GallonCountry) -> None:
        other, new = self._document.project, new_project(gallon)
        furnished = self._furnished(new)
        if self._leave():
            self._document.replace(Session(furnished))
            self._window.recipe.focus_new_line()
            if furnished != new:
                goes_on = " The forecast goes on learning from the same batches."
                learned = goes_on if furnished.own_ferments else ""
                self._window.banner.tell(
                    f"Kitchen, instruments, stock and prices are those of “{other.name}”.{learned}"
                )

    def _furnished(self, new: Project) -> Project:
        """Return the new batch in the kitchen of the one that is open, but for a sample's."""
        other = self._document.project
        return new if is_like_a_sample(other) else in_the_kitchen_of(new, other)

    def read_card(self, typed: str = "") -> None:
        """Open the reader of handed-down recipe cards, on a text typed in a row of the recipe."""
        from winebench.window.recipe.card_reader import CardReader

        dialog = CardReader(self._document, self._start_from_card, self._window, typed)
        dialog.accepted.connect(lambda: self._window.recipe.new_line.forget(typed))
        dialog.accepted.connect(self._tell_of_card)
        dialog.open()

    def _start_from_card(self, reading: CardReading) -> bool:
        """Start a batch from the card; return whether it is there."""
        from winebench.plan.handed_down.into_project import card_edit

        settings = load_settings()
        if not self._leave():
            return False
        session = Session(self._furnished(new_project(reading.gallon or settings.gallon)))
        self._document.replace(session)
        self._document.edit(card_edit(reading, session.project, self._document.now()))
        return True

    def _tell_of_card(self) -> None:
        told, banner = "The card is in the recipe.", self._window.banner
        banner.tell(told, ("Undo", self._document.undo))
        # After another edit the button would undo that, and after an undo it is not there.
        self._document.edited.connect(
            lambda _changes: banner.retract(told), Qt.ConnectionType.SingleShotConnection
        )

    def open(self) -> None:
        """Ask for a file and open it."""
        ask_for_files(
            self._window,
            "Open a project",
            _FILTER,
            lambda paths: self.open_path(paths[0]),
            project=self._document.session.path,
        )

    def open_path(self, path: Path) -> bool:
        """Open that file; where it cannot be read, say why and stay."""
        try:
            session = opened(path)
        except StoreError as problem:
            if not path.exists():
                recent.forget_file(path)
            self._window.banner.say(str(problem))
            return False
        if not self._leave():
            return False
        recent.remember_file(path)
        self._document.replace(session)
        if session.dirty:
            self._window.banner.tell("Here is the work as you left it; the file held less.")
        return True

    def open_sample(self, name: str) -> None:
        """Open a copy of a bundled sample; the sample itself is never written."""
        try:
            session = sample_copy(name, self._window.document.now())
        except StoreError as problem:
            self._window.banner.say(str(problem))
            return
        if self._leave():
            self._document.replace(session)
            self._window.banner.tell(
                "This is a copy of the sample: change what you like, the sample stays."
            )

    def start(self, project: Project) -> bool:
        """Show a new project that no file holds yet; return whether it is there."""
        if not self._leave():
            return False
        self._document.replace(Session.unsaved(project))
        return True

    def kept_work(self) -> list[tuple[str, Callable[[], None]]]:
        """Return the kept work that is not open: its words, and how to open it."""
        found: list[tuple[str, Callable[[], None]]] = [
            (session.project.name, partial(self._take_up, session))
            for session in reversed(self.aside)
        ]
        for unsaved in recovery.unsaved_work():
            if unsaved.key != self._document.session.key:
                words = f"{unsaved.project.name}, {_moment(unsaved.kept_at)}"
                found.append((words, partial(self._recover, unsaved)))
        return found

    def _take_up(self, session: Session) -> None:
        if self._leave():
            self.aside.remove(session)
            self._document.replace(session)

    def _recover(self, unsaved: recovery.Unsaved) -> None:
        if self._leave():
            self._document.replace(Session.recover(unsaved))

    def _leave(self) -> bool:
        """Keep the open work before another takes its place; return whether it is safe."""
        session = self._document.session
        if not self._window.keeper.keep():
            return False
        if session.dirty:
            self.aside.append(session)
        return True

    # --- saving ------------------------------------------------------------------------------

    def save(self) -> None:
        """Save to the project's file, or ask for one."""
        if self._document.session.path is None:
            self.save_as()
        else:
            self.save_to(None)

    def save_as(self) -> None:
        """Ask for a file and save there from now on."""
        ask_for_files(
            self._window,
            "Save the project as",
            _FILTER,
            lambda paths: self.save_to(paths[0]),
            wanted="new",
            name=file_name(self._document.project.name),
            project=self._document.session.path,
        )

    def save_to(self, path: Path | None, *, force: bool = False) -> None:
        """Save to that file, the project's from now on; None means its own, as it is.

        `force` overwrites what another program wrote there meanwhile.
        """
        session = self._document.session
        try:
            session.save(path, force=force)
        except StoreError as problem:
            self._window.banner.say(str(problem), ("Save as…", self.save_as))
            return
        if session.path is not None:
            recent.remember_file(session.path)
        self._window.banner.clear()
        self._window.keeper.tell_saved()
        self._document.state_changed.emit()

    def offer_elsewhere(self, sentence: str) -> None:
        """Say why the work cannot be saved, with the way on."""
        self._window.banner.warn(sentence, ("Save as…", self.save_as))

    def tell_taken_in(self, sentence: str) -> None:
        """Say that what another program wrote is shown now, with the way back."""
        self._window.banner.say(sentence, ("Undo", self._document.undo))
        self._taken_in = sentence

    def _put_by_taken_in(self) -> None:
        """Put that message away with the next edit: it is not so any more."""
        self._window.banner.retract(self._taken_in)

    def offer_overtaken(self, sentence: str) -> None:
        """Say that another program changed the file, with the ways on."""
        path = self._document.session.path
        if path is None:
            return
        self._window.banner.warn(
            sentence,
            ("Overwrite it", self._overwrite),
            ("Save as…", self.save_as),
            ("Open the other", partial(self._reopen, path)),
        )

    def _overwrite(self) -> None:
        self.save_to(None, force=True)
        if not self._document.session.dirty:
            self._window.banner.tell(
                "Saved; what the other program wrote is kept among the earlier versions."
            )

    def _reopen(self, path: Path) -> None:
        """Open what the file holds now; the work that was here stays among the kept work."""
        session = self._document.session
        try:
            other = Session.open(path)
        except StoreError as problem:
            self._window.banner.say(str(problem))
            return
        if session.dirty:
            self.aside.append(session)
        self._document.replace(other)


def _moment(at: datetime) -> str:
    return f"{short_date(at)} {at.hour:02d}:{at.minute:02d}"
