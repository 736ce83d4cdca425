"""Batches made of other batches: again, as a variant, side by side, and the person's recipes."""
