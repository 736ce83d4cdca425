"""The recipe pane: what goes in, as written, scaled and measured, and the must it makes."""
