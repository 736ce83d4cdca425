"""How fast the window opens, answers a key, and how much memory it takes.

    python -m tests.bench.start_up

Every figure is a ratio to a floor measured in the same run: an empty window with one form and one
plot of the same libraries. Nothing here is asserted; machines differ.
"""

from __future__ import annotations

import compileall
import os
import statistics
import subprocess
import sys
import tempfile
import time

RUNS = 9
FLOOR = """
import sys, time
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget, QHBoxLayout, QLineEdit
application = QApplication(sys.argv[:1])
application.setStyle("Fusion")
import pyqtgraph
window = QMainWindow()
middle = QWidget()
row = QHBoxLayout(middle)
row.addWidget(QLineEdit())
row.addWidget(pyqtgraph.PlotWidget(axisItems={"bottom": pyqtgraph.DateAxisItem()}))
window.setCentralWidget(middle)
window.resize(1366, 740)
window.show()
"""
OURS = """
import sys, time
from datetime import datetime
from winebench.store.samples import sample_seen_at
from winebench.window import app
application = app._application()
from winebench.session import Session
from winebench.window.main_window import MainWindow
at = datetime.now().astimezone().replace(microsecond=0)
project = sample_seen_at("raspberry-day-3", at)
window = MainWindow(Session(project), at)
window.open_session(Session(project), at)
window.resize(1366, 740)
window.show()
"""
MEASURE = """
from PySide6.QtCore import QObject, QEvent
class Painted(QObject):
    def __init__(self):
        super().__init__(); self.done = False
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint and not self.done:
            self.done = True
        return False
seen = Painted()
window.centralWidget().installEventFilter(seen)
while not seen.done:
    application.processEvents()
first = time.time()
while "pyqtgraph" not in sys.modules:
    application.processEvents()
application.processEvents()
rss = int(open("/proc/self/statm").read().split()[1]) * 4096 / 2**20
print(first, time.time(), rss)
"""
KEYS = """
from PySide6.QtTest import QTest
sugar = next(line for line in project.recipe.lines if getattr(line, "sugar", ""))
field = window.recipe.table.rows[sugar.id].written
field.setFocus()
field.setText("1000 g")
end = time.monotonic() + 3
while time.monotonic() < end:
    application.processEvents()
times = []
for number in range(60):
    field.setCursorPosition(1)
    start = time.perf_counter()
    QTest.keyClick(field, "0123456789"[number % 10])
    application.processEvents()
    times.append((time.perf_counter() - start) * 1000)
    field.setCursorPosition(2)
    field.backspace()
    pause = time.monotonic() + 0.15
    while time.monotonic() < pause:
        application.processEvents()
times.sort()
print(times[len(times) // 2], times[int(len(times) * 0.95)])
"""


def run(script: str) -> list[float]:
    """Run a script in a process of its own; return the numbers it prints, start time first."""
    with tempfile.TemporaryDirectory() as state:
        environment = os.environ | {"WINEBENCH_STATE": state}
        environment.setdefault("QT_QPA_PLATFORM", "offscreen")
        began = time.time()
        done = subprocess.run(
            [sys.executable, "-c", script],
            env=environment,
            capture_output=True,
            text=True,
            check=True,
        )
    return [began, *(float(word) for word in done.stdout.split())]


def opened(script: str) -> tuple[float, float, float]:
    """Return ms from process start to the first paint and to the plot, and MiB resident."""
    began, painted, whole, resident = run(script + MEASURE)
    return (painted - began) * 1000, (whole - began) * 1000, resident


def main() -> None:
    """Measure and print."""
    # Both sides as they are after an installation: pip compiles what it installs.
    compileall.compile_dir("winebench", quiet=1)
    opened(FLOOR), opened(OURS)  # caches of files and of units, warm as on the second start
    floor = [opened(FLOOR) for _ in range(RUNS)]
    ours = [opened(OURS) for _ in range(RUNS)]
    floor_first, floor_whole, floor_mib = map(statistics.median, zip(*floor, strict=True))
    first, whole, mib = map(statistics.median, zip(*ours, strict=True))
    # Winebench paints recipe and strip first and then loads the timeline; the floor has no such
    # half-way, so its first paint has the plot in it.
    print(f"first paint   floor {floor_first:.0f} ms, Winebench {first:.0f} ms")
    print(f"              {first / floor_first:.2f} x the floor (aim: 1.5)")
    print(f"with the plot floor {floor_whole:.0f} ms, Winebench {whole:.0f} ms")
    print(f"              {whole / floor_whole:.2f} x the floor")
    print(f"resident      floor {floor_mib:.0f} MiB, Winebench {mib:.0f} MiB")
    print(f"              {mib / floor_mib:.2f} x the floor (aim: 1.4)")
    _, *measured = run(OURS + MEASURE + KEYS)
    median, late = measured[-2:]
    print(f"key to paint  median {median:.1f} ms, 95 % under {late:.1f} ms (a frame: 16.7)")


if __name__ == "__main__":
    main()
