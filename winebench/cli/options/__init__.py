"""The arguments of the commands, by subject."""
