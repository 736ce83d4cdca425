"""A recipe card as somebody handed it down: read item by item, judged, nothing dropped."""
