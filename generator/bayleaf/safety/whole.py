"""Where the things of a vehicle are, as far as a path has shown: one bit a thing, in its place or out of it."""

from itertools import islice
from typing import NamedTuple

from ..model.common import MODES, QUIET
from .rig import Rig, union

ALL_MODES = (1 << len(MODES)) - 1
QUIET_MODES = union(1 << MODES.index(mode) for mode in MODES if mode in QUIET)


class Whole(NamedTuple):
    """For each thing whether it may be in its place (`on`) and whether it may be out of it (`off`); bits by the index.

    A point is out of its place when it is open, a lock when it is set. Neither: nobody has touched it yet and how it
    was found is for whoever performs the procedure to answer.
    """

    on: int
    off: int
    modes: int


UNTOUCHED = Whole(-1, 0, ALL_MODES)


class Index(dict[str, int]):
    """The bits of the things of a vehicle by name, its points and their locks first; a new name gets the next bit."""

    def __init__(self, rig: Rig) -> None:
        super().__init__()
        self.rig = rig
        for point in rig.vehicle.isolation_points:
            self[point_thing(point)], self[lock_thing(point)] = 1 << len(self), 2 << len(self)
        self.points = (1 << len(self)) - 1
        self._named: dict[str, tuple[int, int]] = {}

    def __missing__(self, name: str) -> int:
        bit = self[name] = 1 << len(self)
        return bit

    def named(self, beginning: str) -> int:
        """The bits of all things of one sort."""
        known, bits = self._named.get(beginning, (0, 0))
        if known != len(self):  # what has come since
            new = (bit for name, bit in islice(self.items(), known, None) if name.startswith(beginning))
            bits |= union(new)
            self._named[beginning] = len(self), bits
        return bits

    def closed(self, points: int) -> int:
        """The bits of some points of the rig and of their locks."""
        names = (name for name in self.rig.vehicle.isolation_points if self.rig.point(name) & points)
        return union(self[point_thing(name)] | self[lock_thing(name)] for name in names)


def point_thing(name: str) -> str:
    """The name of a point among the things."""
    return f"point {name}"


def lock_thing(name: str) -> str:
    """The name of the lock of a point among the things."""
    return f"lock {name}"


def current_thing(cable: str) -> str:
    """The name of "no current was read in this cable" among the things."""
    return f"current {cable}"


def charge_thing(connector: str) -> str:
    """The name of "nothing is charged on the device side of this plug" among the things."""
    return f"charge {connector}"


def residual_thing(circuit: str) -> str:
    """The name of "next to no voltage was read on this circuit" among the things."""
    return f"residual {circuit}"


def join_whole(a: Whole, b: Whole) -> Whole:
    """What may be on either path."""
    return Whole(a.on | b.on, a.off | b.off, a.modes | b.modes)


def entry_of(open_: int, secured: int, index: Index) -> Whole:
    """The things when a procedure is begun that expects some points open; how the rest was found is not its affair."""
    rig = index.rig
    names = rig.vehicle.isolation_points
    off = union(index[point_thing(name)] for name in names if rig.point(name) & open_)
    off |= union(index[lock_thing(name)] for name in names if rig.point(name) & secured)
    modes = QUIET_MODES if open_ & rig.mode_off else ALL_MODES
    return Whole(index.points & ~off, off, modes)
