"""Start the window."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path

import winebench.plan.work_out  # noqa: F401  - before Qt: once PySide6 is there, it reads the source of every module that is imported
from winebench.model.project import Project

# isort: split
from PySide6.QtWidgets import QApplication


def run(path: Path | None = None, like: Project | None = None, at: datetime | None = None) -> int:
    """Open the window and return the exit code when it is closed.

    `path` opens that file, `like` a copy of a project; else what was open last, or a sample.
    `at` fixes the moment that the window shows.
    """
    application = _application()
    from winebench.store.settings import load_settings
    from winebench.window.beginnings import begin
    from winebench.window.document import local_now
    from winebench.window.icon import application_icon
    from winebench.window.main_window import MainWindow
    from winebench.window.theme import theme

    settings = load_settings()
    theme().choose({"system": None, "light": False, "dark": True}[settings.appearance])
    application.setFont(theme().base_font())
    application.setWindowIcon(application_icon())
    beginning = begin(path, like, settings, at or local_now())
    window = MainWindow(beginning.session, at)
    window.open_session(beginning.session, at)
    if beginning.sentence:
        window.banner.say(" ".join(filter(None, (beginning.sentence, beginning.news))))
    elif beginning.news:
        window.banner.tell(beginning.news)
    window.show()
    window.notices.start()
    return application.exec()


def _application() -> QApplication:
    running = QApplication.instance()
    if isinstance(running, QApplication):
        return running
    application = QApplication(sys.argv[:1])
    application.setApplicationName("winebench")
    application.setApplicationDisplayName("Winebench")
    application.setDesktopFileName("winebench")
    application.setStyle("Fusion")
    return application
