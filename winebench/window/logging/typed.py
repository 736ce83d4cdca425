"""What a log field means, for the forms of the timeline; the reading itself is the plan's."""

from winebench.plan.typed import Slip, read_moment

__all__ = ["Slip", "read_moment"]
