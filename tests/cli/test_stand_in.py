"""`winebench stand-in FILE -o PDF`, as a process."""

from tests.cli.program import bad, good
from tests.output import pdf


def test_the_half_page_is_written_for_the_days_asked_for(tmp_path):
    batch, page = tmp_path / "raspberry.winebench", tmp_path / "stand-in.pdf"
    good("new", batch, "--like", "raspberry-day-3")
    assert "half page" in good("stand-in", batch, "-o", page, "--paper", "Letter")
    assert "For whoever looks in meanwhile: Row's end raspberry" in pdf.words_of(page)
    assert "comes before" in bad(
        "stand-in", batch, "-o", page, "--from", "2026-10-08", "--to", "2026-10-07"
    )
    assert "is not a day" in bad("stand-in", batch, "-o", page, "--from", "Monday")
