"""A project and its parts: what a person typed, chose or logged, and nothing worked out."""
