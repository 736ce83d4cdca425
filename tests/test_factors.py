"""Unit factors come from pint, and are remembered without ever being wrong."""

import json
import os
import subprocess
import sys

import pytest

from winebench.factors import factor, registry

CODE = (
    "import sys; from winebench.units import Amount\n"
    "print(Amount('1 gal US').litres(None), 'pint' in sys.modules)"
)


def asks_pint(cache: object) -> bool:
    environment = os.environ | {"XDG_CACHE_HOME": str(cache)}
    done = subprocess.run(
        [sys.executable, "-c", CODE], env=environment, capture_output=True, text=True, check=True
    )
    litres, pint = done.stdout.split()
    # NIST Handbook 44: a US gallon is 3.785411784 L.
    assert float(litres) == pytest.approx(3.785411784, rel=1e-12)
    return pint == "True"


@pytest.mark.parametrize(("unit", "to"), [("gallon", "liter"), ("pound", "gram")])
def test_a_factor_is_what_pint_says(unit, to):
    assert factor(unit, to) == registry().Quantity(1, unit).to(to).magnitude


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="XDG folders are of Linux")
def test_the_second_start_needs_no_pint_and_reads_the_same(tmp_path):
    assert asks_pint(tmp_path)
    assert not asks_pint(tmp_path)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="XDG folders are of Linux")
@pytest.mark.parametrize("content", ["", "{", "[]", '{"gallon in liter": "4"}', '{"a": -1.0}'])
def test_a_damaged_memory_is_asked_anew(tmp_path, content):
    asks_pint(tmp_path)
    (remembered,) = (tmp_path / "winebench").iterdir()
    remembered.write_text(content, "utf-8")
    assert asks_pint(tmp_path)
    assert json.loads(remembered.read_text("utf-8"))["gallon in liter"] > 3.78


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="XDG folders are of Linux")
def test_a_cache_that_cannot_be_written_only_costs_time(tmp_path):
    blocked = tmp_path / "file"
    blocked.write_text("in the way", "utf-8")
    assert asks_pint(blocked)
