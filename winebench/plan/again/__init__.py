"""A batch made again, as its log says that it was made."""
