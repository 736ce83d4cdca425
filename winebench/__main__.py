"""Let `python -m winebench` do what `winebench` does."""

import sys

from winebench.cli import main

sys.exit(main())
