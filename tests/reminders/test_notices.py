"""Notices reach a real notification service, and a desktop without one never hangs."""

import json
import os
import shutil
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from tests.reminders.raise_notices import notice
from winebench.reminders.notices import BusNotices, CallbackNotices, NoNotices, notices

TOP = Path(__file__).parents[2]
NEEDED = ("dunst", "dunstctl", "dbus-run-session", "Xvfb")
MISSING = [name for name in NEEDED if shutil.which(name) is None]
on_linux = pytest.mark.skipif(sys.platform != "linux", reason="the session bus is Linux's")

# dunst prints what it was sent, byte for byte; Xvfb picks a free display by itself.
SCRIPT = """
exec 3> display
Xvfb -displayfd 3 -screen 0 640x480x24 -nolisten tcp 2> xvfb.log & xvfb=$!
for _ in $(seq 100); do [ -s display ] && break; sleep 0.1; done
export DISPLAY=":$(cat display)"
dunst -print > shown.txt 2> dunst.log & dunst=$!
for _ in $(seq 100); do dunstctl is-paused > /dev/null 2>&1 && break; sleep 0.1; done
"$PYTHON" -m tests.reminders.raise_notices > sent.json
sleep 0.3
dunstctl count displayed > count.txt
kill $dunst $xvfb
"""


@on_linux
@pytest.mark.skipif(bool(MISSING), reason=f"not installed here: {', '.join(MISSING)}")
def test_dunst_shows_the_notices_and_a_later_one_replaces_that_of_its_step(tmp_path):
    surroundings = {
        **os.environ,
        "PYTHON": sys.executable,
        "PYTHONPATH": str(TOP),
        "HOME": str(tmp_path),
        "XDG_CONFIG_HOME": str(tmp_path),
    }
    run = subprocess.run(
        ["dbus-run-session", "--", "bash", "-c", SCRIPT],
        cwd=tmp_path,
        env=surroundings,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    assert json.loads((tmp_path / "sent.json").read_text()) == [True, True, True]
    shown = (tmp_path / "shown.txt").read_text("utf-8")
    assert "Damson: stir" in shown
    assert "Gravity please." in shown
    # dunst takes markup in the body, so the signs must have arrived escaped.
    assert "26 h late &amp; &lt;still&gt; worth it: ½ a minute." in shown
    assert (tmp_path / "count.txt").read_text().strip() == "2"


@on_linux
def test_without_a_bus_nothing_is_sent_and_nothing_raised(monkeypatch, tmp_path):
    for address in ("", f"unix:path={tmp_path}/none", "rubbish", "unix:path=/dev/null"):
        monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", address)
        assert BusNotices().send(notice("stir", "t", "b")) is False
    monkeypatch.delenv("DBUS_SESSION_BUS_ADDRESS")
    assert BusNotices().send(notice("stir", "t", "b")) is False


@on_linux
@pytest.mark.parametrize("greets", [False, True], ids=["dumb", "silent after the handshake"])
def test_a_bus_that_does_not_answer_costs_a_second_not_the_window(monkeypatch, tmp_path, greets):
    path = tmp_path / "bus"
    server = socket.socket(socket.AF_UNIX)
    server.bind(str(path))
    server.listen()

    def serve() -> None:
        caller, _ = server.accept()
        with caller:
            while data := caller.recv(4096):
                if greets and b"AUTH EXTERNAL" in data:
                    caller.sendall(b"OK 0123456789abcdef0123456789abcdef\r\n")

    serving = threading.Thread(target=serve, daemon=True)
    serving.start()
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", f"unix:path={path}")
    begun = time.monotonic()
    assert BusNotices().send(notice("stir", "t", "b")) is False
    assert time.monotonic() - begun < 3.0
    server.close()


def test_elsewhere_the_window_shows_the_notice(monkeypatch):
    monkeypatch.setattr(sys, "platform", "win32")
    shown = []
    port = notices(lambda one: shown.append(one) is None)
    assert isinstance(port, CallbackNotices)
    mine = notice("stir", "t", "b")
    assert port.send(mine) is True
    assert shown == [mine]
    assert isinstance(notices(), NoNotices)
    assert notices().send(mine) is False
