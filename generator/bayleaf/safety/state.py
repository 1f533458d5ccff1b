"""The least that is surely known of a circuit at a place of a procedure, as one frozen value."""

from collections.abc import Iterable
from typing import NamedTuple

from .groups import Groups, is_within, merged


class State(NamedTuple):
    """What holds for one circuit on every path that leads here; sets are bits, numbered by the rig.

    `waited` are seconds since it was last isolated, cut at what is asked for. `on` and `off` hold the things of the
    circuit that are surely in their place and surely out of it. `charged`: a test may have charged it; `joined`: which
    circuits may have become one; `found`: it may have been found not dead.
    """

    open: int = 0
    secured: int = 0
    waited: float = 0
    proved: int = 0
    on: int = 0
    off: int = 0
    charged: bool = False
    joined: Groups = ()
    found: bool = False


def join(a: State, b: State) -> State:
    """What holds of both: of each component the less safe."""
    if a == b:
        return a
    return State(
        a.open & b.open,
        a.secured & b.secured,
        min(a.waited, b.waited),
        a.proved & b.proved,
        a.on & b.on,
        a.off & b.off,
        a.charged or b.charged,
        a.joined if a.joined == b.joined else merged((*a.joined, *b.joined)),
        a.found or b.found,
    )


def join_all(states: Iterable[State]) -> State:
    """What holds of all of one or more states."""
    first, *others = states
    for other in others:
        first = join(first, other)
    return first


def at_most_as_safe(a: State, b: State) -> bool:
    """Whether `a` is in nothing safer than `b`."""
    return (
        not a.open & ~b.open
        and not a.secured & ~b.secured
        and a.waited <= b.waited
        and not a.proved & ~b.proved
        and not a.on & ~b.on
        and not a.off & ~b.off
        and a.charged >= b.charged
        and (a.joined == b.joined or is_within(b.joined, a.joined))
        and a.found >= b.found
    )


def least_safe(states: Iterable[State]) -> tuple[State, ...]:
    """Those of the states that none of the others is at most as safe as."""
    kept: list[State] = []
    for state in states:
        if not any(at_most_as_safe(other, state) for other in kept):
            kept = [other for other in kept if not at_most_as_safe(state, other)]
            kept.append(state)
    return tuple(kept)
