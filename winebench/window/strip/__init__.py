"""Today's strip: what is due, what is to be read, and what is held."""
