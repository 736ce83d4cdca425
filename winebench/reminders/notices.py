"""Raise a notice on the desktop: over D-Bus where there is one, else as the window offers.

The protocol is the freedesktop Desktop Notifications Specification 1.2. Nothing here blocks
for longer than its timeouts, and a desktop without notices is no error: `send` says False.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from html import escape
from queue import Empty, Queue
from threading import Thread
from typing import Any, Protocol

from winebench.reminders.due import Notice

CONNECT_TIMEOUT_S = 0.5
ANSWER_TIMEOUT_S = 1.0
NORMAL = 1
"""Urgency: a stir is no alarm."""
SHOWN_BY_DESKTOP = -1


class NoticePort(Protocol):
    """Whatever can show a notice."""

    def send(self, notice: Notice) -> bool:
        """Show it and return whether it was taken."""

    def close(self) -> None:
        """Let go of what it holds."""


class NoNotices:
    """A desktop that shows none."""

    def send(self, notice: Notice) -> bool:
        """Return False."""
        return False

    def close(self) -> None:
        """Hold nothing."""


class CallbackNotices:
    """Hands notices to the window, which shows them at its tray icon."""

    def __init__(self, show: Callable[[Notice], bool]) -> None:
        self._show = show

    def send(self, notice: Notice) -> bool:
        """Show the notice through the callback and return what it answered."""
        return self._show(notice)

    def close(self) -> None:
        """Hold nothing."""


class BusNotices:
    """Notices over the session bus of a Linux desktop.

    The connection stays open between notices, because some desktops take a notice down as
    soon as its sender leaves the bus. A newer notice of a step replaces the older one.
    """

    def __init__(self) -> None:
        self._connection: Any = None
        self._markup = False
        self._shown: dict[str, int] = {}

    def send(self, notice: Notice) -> bool:
        """Show the notice; False where no bus or no notice service answers in time."""
        again = self._connection is not None
        if self._try(notice):
            return True
        # A bus that was restarted leaves a dead connection behind: try a new one, once.
        return again and self._try(notice)

    def _try(self, notice: Notice) -> bool:
        from jeepney.auth import AuthenticationError

        try:
            if self._connection is None:
                self._connect()
            self._shown[notice.step] = self._notify(notice)
        except (OSError, EOFError, KeyError, ValueError, RuntimeError, AuthenticationError):
            self.close()
            return False
        return True

    def close(self) -> None:
        """Leave the bus."""
        connection, self._connection = self._connection, None
        self._shown.clear()
        if connection is not None:
            connection.close()

    def _connect(self) -> None:
        self._connection = _opened()
        self._connection.sock.settimeout(ANSWER_TIMEOUT_S)
        (capabilities,) = self._call("GetCapabilities")
        self._markup = "body-markup" in capabilities

    def _notify(self, notice: Notice) -> int:
        body = escape(notice.body, quote=False) if self._markup else notice.body
        hints = {
            "urgency": ("y", NORMAL),
            "desktop-entry": ("s", "winebench"),
            "category": ("s", "x-winebench.reminder"),
        }
        replaced = self._shown.get(notice.step, 0)
        actions: list[str] = []
        values = ("Winebench", replaced, "winebench", notice.title, body, actions, hints)
        (number,) = self._call("Notify", "susssasa{sv}i", (*values, SHOWN_BY_DESKTOP))
        return int(number)

    def _call(self, method: str, signature: str | None = None, body: tuple[Any, ...] = ()) -> Any:
        from jeepney import DBusAddress, MessageType, new_method_call

        service = DBusAddress(
            "/org/freedesktop/Notifications",
            bus_name="org.freedesktop.Notifications",
            interface="org.freedesktop.Notifications",
        )
        message = new_method_call(service, method, signature, body)
        reply = self._connection.send_and_get_reply(message, timeout=ANSWER_TIMEOUT_S)
        if reply.header.message_type is MessageType.error:
            raise RuntimeError(f"the desktop refused {method}")
        return reply.body


def _opened() -> Any:
    """Return a connection to the session bus, or raise what went wrong within the timeout."""
    from jeepney.io.blocking import open_dbus_connection

    answer: Queue[Any] = Queue()

    def open_it() -> None:
        try:
            answer.put(open_dbus_connection("SESSION", auth_timeout=CONNECT_TIMEOUT_S))
        except Exception as problem:  # handed over to the caller, who knows which to expect
            answer.put(problem)

    # jeepney limits the wait for the handshake, not that for the bus's first answer.
    Thread(target=open_it, daemon=True).start()
    try:
        found = answer.get(timeout=2 * CONNECT_TIMEOUT_S)
    except Empty:
        raise TimeoutError("the session bus does not answer") from None
    if isinstance(found, Exception):
        raise found
    return found


def notices(show: Callable[[Notice], bool] | None = None) -> NoticePort:
    """Return how this desktop shows notices: its bus on Linux, else the window's own `show`."""
    if sys.platform == "linux":
        return BusNotices()
    return CallbackNotices(show) if show is not None else NoNotices()
