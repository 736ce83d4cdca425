"""Pictures for the log: chosen or dropped, copied beside the project, opened by the system."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from PySide6.QtCore import QObject, QUrl
from PySide6.QtGui import QDesktopServices

from winebench.model.edits import PutEntry, changed
from winebench.store.errors import StoreError
from winebench.store.pictures import SAVE_FIRST, add_picture, picture_path
from winebench.window.banner import Banner
from winebench.window.document import Document
from winebench.window.file_dialog import ask_for_files
from winebench.window.logging.log_list import LogList


class LogPictures(QObject):
    """What the log list asks for is done here; what goes wrong is said in one sentence."""

    def __init__(
        self,
        document: Document,
        log: LogList,
        banner: Banner,
        save_as: Callable[[], object],
    ) -> None:
        super().__init__(log)
        self._document = document
        self._log = log
        self._banner = banner
        self._save_as = save_as
        log.picture_wanted.connect(self.choose)
        log.pictures_dropped.connect(self.add)
        log.pictures.open_wanted.connect(self.open)
        document.state_changed.connect(self._show_file)
        self._show_file()

    def _show_file(self) -> None:
        self._log.show_file(self._document.session.path)

    def choose(self, entry_id: str) -> None:
        """Ask for pictures and add them to the entry of that id."""
        from winebench.output.pictures import formats

        if not self._has_file():
            return
        endings = " ".join(f"*.{ending}" for ending in formats())
        ask_for_files(
            self._log.window(),
            "Add a picture",
            f"Pictures ({endings})",
            lambda paths: self.add(entry_id, paths),
            wanted="some",
            project=self._document.session.path,
        )

    def add(self, entry_id: str, pictures: Iterable[Path]) -> None:
        """Copy the pictures beside the project and note them with the entry: one step of undo."""
        from winebench.output.pictures import check_picture

        entry = next((e for e in self._document.project.log if e.id == entry_id), None)
        if entry is None or not self._has_file():
            return
        names: list[str] = []
        try:
            for picture in pictures:
                check_picture(picture)
                names.append(add_picture(self._document.session.path, picture))
        except StoreError as problem:
            self._banner.say(str(problem))
        if names:
            entry = changed(entry, pictures=(*entry.pictures, *names))
            self._document.edit(PutEntry(label="add a picture", entry=entry))

    def open(self, name: str) -> None:
        """Show the picture with the system's own viewer."""
        from winebench.output.pictures import check_picture

        file = self._document.session.path
        try:
            if file is None:
                raise StoreError(f'"{name}" is missing: this project has no file.')
            path = picture_path(file, name)
            if not path.exists():
                raise StoreError(f'"{name}" is missing; put it back beside "{file.name}".')
            check_picture(path)  # never a program that bears a picture's name
        except StoreError as problem:
            self._banner.say(str(problem))
            return
        if not QDesktopServices.openUrl(QUrl.fromLocalFile(str(path))):
            self._banner.say(f'No viewer is set up on this system; the picture lies in "{path}".')

    def _has_file(self) -> bool:
        if self._document.session.path is not None:
            return True
        self._banner.say(SAVE_FIRST, ("Save as…", self._save_as))
        return False
