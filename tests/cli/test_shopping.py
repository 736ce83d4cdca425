"""`winebench shopping FILE`, as a process."""

import json

import pdfplumber
import pytest

from tests.cli.program import bad, good
from tests.plan.test_shopping import PANTRY, stock
from winebench.model.edits import changed
from winebench.store.project_file import read, write

AT = ("--at", "2026-10-01T10:00:00-04:00")


@pytest.fixture
def damson(tmp_path):
    path = tmp_path / "damson.winebench"
    good("new", path, "--like", "damson-design")
    enzyme = stock("pectic-enzyme", have="50 g", opened="2024-03-01")
    write(path, changed(read(path), pantry=(*PANTRY, enzyme), money="EUR"))
    return path


def test_the_list_is_plain_text(damson):
    shown = good("shopping", damson, *AT)
    lines = shown.splitlines()
    assert lines[0].startswith("Shopping for ")
    assert "- Corks: 1 × 30 corks, 6.00 EUR; needed 24 corks, left over 6 corks" in lines
    assert "In stock already:" in lines
    assert "until March 2026 (common practice). It is past that: buy fresh." in shown
    assert lines[-1].startswith("To spend ")
    assert "a bottle" in lines[-1]


def test_json_is_one_document_and_the_outlook_carries_the_same(damson):
    seen = json.loads(good("shopping", damson, "--json", *AT))
    assert seen["cost"]["money"] == "EUR"
    assert seen["cost"]["to_spend"] == pytest.approx(
        sum(item["cost"] or 0.0 for item in (*seen["items"], *seen["later"]))
    )
    assert [dose["what"] for dose in seen["later"]] == ["sulfite-tablet", "fining"]
    assert seen["later"][0]["buy_text"] == ""  # of 100 tablets in the pack
    assert any("to spare" in words for words in seen["look_at"])
    assert seen["labels"].startswith("Labels: ")
    enzyme = next(item for item in seen["items"] if item["what"] == "pectic-enzyme")
    assert enzyme["keeps_until"] == "2026-03-01"
    outlook = json.loads(good("outlook", damson, "--json", *AT))
    assert outlook["shopping"] == seen["items"]
    assert outlook["bottles"]["cost"] == seen["cost"]


def test_it_can_be_printed(damson, tmp_path):
    path = tmp_path / "list.pdf"
    assert str(path) in good("shopping", damson, "-o", path, "--paper", "Letter", *AT)
    with pdfplumber.open(path) as pdf:
        assert "To buy" in pdf.pages[0].extract_text()
    assert "nowhere" in bad("shopping", damson, "-o", tmp_path / "nowhere" / "list.pdf")


def test_a_file_that_is_none_is_one_sentence(tmp_path):
    assert "missing.winebench" in bad("shopping", tmp_path / "missing.winebench")
