"""Write the locked requirements anew: python packaging/lock.py (needs uv on the path).

The locks hold versions and hashes, and no address: any index that serves the same files will do.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

HERE = Path("packaging")


def main() -> int:
    """Compile both locks for every platform and Python from 3.11 on."""
    build = HERE / "build.in"
    common = ["uv", "pip", "compile", "-q", "--universal", "--python-version", "3.11"]
    common += ["--generate-hashes", "--no-header", "--no-annotate", "pyproject.toml", str(build)]
    for name, extra in (("requirements", []), ("requirements-dev", ["--extra", "dev"])):
        command = [*common, *extra, "-o", str(HERE / f"{name}.lock"), "--upgrade"]
        if subprocess.run(command, check=False).returncode:
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
