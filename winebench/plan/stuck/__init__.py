"""A ferment that stands still or drags: how it is told, its clues, and the way out."""
