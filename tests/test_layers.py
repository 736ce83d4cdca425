"""Imports run downward only, as pyproject.toml declares."""

import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).parent.parent


def test_imports_run_downward_only_and_the_lower_layers_know_no_qt():
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as c; c()"]
    run = subprocess.run(command, cwd=TOP, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
