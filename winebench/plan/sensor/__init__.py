"""A sensor's table of readings, turned into entries of the log."""
