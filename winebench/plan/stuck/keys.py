"""Keys of the steps from a standstill to its end."""

DOUBT, WARM, WAIT = "doubt-reading", "warm-and-rouse", "wait-and-read"
STARTER, FEED, PITCH_BACK = "fresh-starter", "feed-starter", "restart"
ACCEPTED = "accept-sweet"
"""The step that leaves a stuck wine sweet."""
RESTART = (DOUBT, WARM, WAIT, STARTER, FEED, PITCH_BACK)
