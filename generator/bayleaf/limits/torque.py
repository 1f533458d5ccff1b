"""The tightening torque that a rule computes from thread, class and friction.

    M = torque at 90 % of yield where the friction is lowest        VDI 2230 (2001 and later)

It is the highest torque that the bolt bears in any case. What is screwed together may bear less: the maker's torque
goes before it.
"""

from ..calculations.tightening import class_torque
from ..model.cited import Computed
from ..model.vehicle import Fastener
from ..quantities.figures import figure
from .joint import joint_of
from .limit_rule import Lack

NAME = "tightening torque"
#: The share of yield that is used up. Source: VDI 2230, the tables of assembly preloads.
UTILISATION = 0.9


def computed_torque(fastener: Fastener) -> Computed | Lack:
    """The torque of a fastener of the profile, as an upper limit."""
    joint = joint_of(fastener)
    if joint.conducts:
        mend = "write the torque of the maker: a stud that carries the current has a table of its own"
        return Lack(f"`{fastener.id}` is a stud of {fastener.material}", mend)
    if not joint.is_computable:
        mend = "write `size` and `class`: a metric size from M3 up, a class of ISO 898-1 or ISO 3506-1"
        return Lack(f"thread and class of `{fastener.id}` are not in the tables", mend)
    if joint.friction is None:
        mend = "write `friction: 0.10 to 0.16`, the lowest and highest that can occur"
        return Lack(f"the friction of `{fastener.id}` is not stated", mend)
    size, strength = joint.thread or "", joint.strength_class or ""
    most = figure(class_torque(size, strength, joint.friction.low, UTILISATION), "N·m", "down")
    words = f"{size}, class {strength}, 90 % of yield at a friction of {joint.friction.low:g}: {most}"
    return Computed(None, most, words, "VDI 2230 (2001 and later)")
