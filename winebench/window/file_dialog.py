"""Ask for a file, in the folder that was used last."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Literal

import msgspec
from PySide6.QtCore import QStandardPaths, Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from winebench.store.settings import load_settings, save_settings

Wanted = Literal["one", "some", "new"]
"""A file that is there, several of them, or one to be written."""
_MODES = {
    "one": QFileDialog.FileMode.ExistingFile,
    "some": QFileDialog.FileMode.ExistingFiles,
    "new": QFileDialog.FileMode.AnyFile,
}


def ask_for_files(
    parent: QWidget,
    title: str,
    kinds: str,
    take: Callable[[list[Path]], object],
    *,
    wanted: Wanted = "one",
    name: str = "",
    project: Path | None = None,
) -> None:
    """Open the dialog; `take` gets the files chosen, and nothing happens where none are.

    `kinds` is Qt's list of filters, `name` what a new file is proposed to be called, `project` the
    open project's file: its folder is the first to be shown where none was used yet.
    """
    dialog = QFileDialog(parent, title, str(folder_to_show(project)), kinds)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.setFileMode(_MODES[wanted])
    if wanted == "new":
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix(Path(name).suffix.lstrip("."))
        dialog.selectFile(name)

    def chosen(names: list[str]) -> None:
        paths = [Path(each) for each in names]
        remember_folder(paths[0])
        take(paths)

    dialog.filesSelected.connect(chosen)
    dialog.open()


def folder_to_show(project: Path | None) -> Path:
    """Return the folder used last, else the project's, else that of the person's documents."""
    last = Path(load_settings().last_folder or ".")
    if load_settings().last_folder and last.is_dir():
        return last
    if project is not None:
        return project.absolute().parent
    place = QStandardPaths.StandardLocation.DocumentsLocation
    documents = Path(QStandardPaths.writableLocation(place))
    return documents if documents.is_dir() else Path.home()


def remember_folder(path: Path) -> None:
    """Keep the folder of that file for the next time."""
    folder = str(path.absolute().parent)
    if load_settings().last_folder != folder:
        save_settings(msgspec.structs.replace(load_settings(), last_folder=folder))
