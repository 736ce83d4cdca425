"""How a figure was reached, shown over the page."""
