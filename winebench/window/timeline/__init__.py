"""The timeline: gravity curve and steps on one time axis, the chosen step, the log."""
