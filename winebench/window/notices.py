"""Desktop notices while the window is open: a stir or a reading that is due."""

from __future__ import annotations

from threading import Thread
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QSystemTrayIcon

from winebench.reminders.due import Notice, due_now
from winebench.store.settings import load_settings
from winebench.window.document import Document

if TYPE_CHECKING:
    from winebench.reminders.notices import NoticePort

_EVERY_MS = 60_000
_SHOWN_MS = 20_000


class Notices(QObject):
    """Ask once a minute what is due and raise it, each once."""

    step_wanted = Signal(str)
    raised = Signal(object)

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.wanted = load_settings().notices
        self._seen: set[str] = set()
        self._port: NoticePort | None = None
        self._tray_port = False
        """The tray belongs to the window's thread; a bus does not."""
        self._tray: QSystemTrayIcon | None = None
        self._step = ""
        self._sending: Thread | None = None
        """A desktop that does not answer must not stop the typing."""
        self._timer = QTimer(self)
        self._timer.setInterval(_EVERY_MS)
        self._timer.timeout.connect(self.look)
        document.replaced.connect(self._seen.clear)

    def start(self, port: NoticePort | None = None) -> None:
        """Begin to look, a first time soon after the window has come up."""
        self._port = port
        self._timer.start()
        QTimer.singleShot(3000, self, self.look)

    def switch(self, wanted: bool) -> None:
        """Raise notices, or be quiet."""
        self.wanted = wanted

    def look(self) -> None:
        """Raise what is due now and was not raised yet."""
        outlook = self._document.outlook
        if outlook is None or not self.wanted or not self._document.project.reminders:
            return
        for notice in due_now(outlook, self._seen):
            self._seen.add(notice.key)
            self._raise(notice)

    def _raise(self, notice: Notice) -> None:
        self.raised.emit(notice)
        if self._port is None:
            from winebench.reminders.notices import CallbackNotices, notices

            self._port = notices(self._show_at_tray)
            self._tray_port = isinstance(self._port, CallbackNotices)
        if self._tray_port:
            self._port.send(notice)
        else:
            self._send_aside(self._port, notice)

    def _send_aside(self, port: NoticePort, notice: Notice) -> None:
        """Send off the window's thread, one notice after the other."""
        before = self._sending

        def send() -> None:
            if before is not None:
                before.join()
            port.send(notice)

        self._sending = Thread(target=send, daemon=True)
        self._sending.start()

    def _show_at_tray(self, notice: Notice) -> bool:
        if not QSystemTrayIcon.isSystemTrayAvailable():
            return False
        if self._tray is None:
            from winebench.window.icon import application_icon

            self._tray = QSystemTrayIcon(application_icon(), self)
            self._tray.messageClicked.connect(lambda: self.step_wanted.emit(self._step))
            self._tray.show()
        self._step = notice.step
        self._tray.showMessage(notice.title, notice.body, application_icon(), _SHOWN_MS)
        return True

    def settle(self) -> None:
        """Wait a little for notices on their way."""
        if self._sending is not None:
            self._sending.join(2.0)

    def finish(self) -> None:
        """Stop looking and let go of the desktop."""
        self._timer.stop()
        self.settle()
        if self._port is not None:
            self._port.close()
