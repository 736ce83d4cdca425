"""A stuck batch by command line: what it does and each clue, as text and as JSON."""

import json

import pytest

from tests.cli.program import good
from tests.plan.damson import damson
from tests.plan.stuck_batch import GOING, STUCK, filed
from winebench.store import project_file


@pytest.fixture
def stuck(tmp_path):
    path = tmp_path / "stuck.winebench"
    project_file.write(path, filed(damson(*STUCK)))
    return path


def test_text_tells_stuck_with_its_clues_in_order(stuck):
    text = good("outlook", stuck, "--at", "2026-10-18T19:00+02:00")
    assert "STUCK OR SLOW?" in text
    assert "  + Warmth: it stood at 14 °C" in text
    assert "  - Nutrient: both halves went in." in text
    assert "  ? pH: not measured" in text
    told = text.partition("STUCK OR SLOW?")[2].partition("\n\n")[0].splitlines()
    marks = [line[4:].split(":")[0] for line in told if line[:4] in ("  + ", "  - ", "  ? ")]
    assert marks[:3] == ["Refractometer", "Warm or cold sample", "Gas in the sample"]
    assert marks[-1] == "Vinegar"
    assert all(len(line) <= 100 for line in text.splitlines())
    assert "[warm-and-rouse]" in text


def test_json_has_the_standstill_and_null_without_one(stuck, tmp_path):
    found = json.loads(good("outlook", stuck, "--at", "2026-10-18T19:00+02:00", "--json"))
    assert found["stuck"]["state"] == "stuck"
    assert len(found["stuck"]["clues"]) == 12
    assert found["stuck"]["clues"][5] == {
        "key": "warmth",
        "name": "Warmth",
        "says": "yes",
        "text": "it stood at 14 °C, and this yeast wants 15 °C.",
        "step": "warm-and-rouse",
    }
    path = tmp_path / "going.winebench"
    project_file.write(path, filed(damson(*GOING)))
    going = json.loads(good("outlook", path, "--at", "2026-10-14T19:00+02:00", "--json"))
    assert going["stuck"] is None
