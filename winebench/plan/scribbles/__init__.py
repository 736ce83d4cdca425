"""Many scribbled lines turned into entries of the log; what cannot be read is asked about."""

from winebench.plan.scribbles.read import keep_unread, scribbles
from winebench.plan.scribbles.shapes import Offer, Scribble, Scribbles

__all__ = ["Offer", "Scribble", "Scribbles", "keep_unread", "scribbles"]
