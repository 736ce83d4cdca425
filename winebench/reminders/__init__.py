"""What is due now, and telling it on the desktop."""
