"""The card says where a must with more sugar than its yeast stands may stop."""

from tests.plan.damson import damson, seen
from tests.plan.test_sweet_end import strong
from winebench.output.card_recipe import must_figures


def test_the_gravity_where_it_may_stop_stands_beside_that_of_the_dry_wine():
    sweet = seen(strong(), "2026-09-28T10:00")
    assert dict(must_figures(sweet))["May stop sweet at"] == sweet.must.stops_at
    assert "May stop sweet at" not in dict(must_figures(seen(damson(), "2026-09-28T10:00")))
