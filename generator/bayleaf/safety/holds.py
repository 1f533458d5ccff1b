"""What holds in a state, and the least change that makes it hold."""

from collections.abc import Iterator, Mapping
from itertools import product
from typing import Literal

from .rig import ASSUMED, ASSUMED_PROOF, Known, Rig
from .state import State, least_safe

Level = Literal["live", "switched off", "isolated", "locked", "access", "waited", "dead"]
#: How safe a circuit is, as people are told. "Charged by test" and "not dead" say why it is not safe.
Word = Literal[
    "live", "switched off", "disconnected", "secured", "waited", "proved dead", "charged by test", "not dead"
]

#: Which level a word of a file asks for.
LEVEL_OF: Mapping[str, Level] = {
    "live": "live",
    "switched off": "switched off",
    "disconnected": "isolated",
    "secured": "locked",
    "waited": "waited",
    "proved dead": "dead",
}


def is_isolated(state: State, known: Known, rig: Rig) -> bool:
    """Whether every source of the circuit, and of those that it is mated with, is taken off."""
    return _all_off(state.open, state, known, rig)


def is_locked(state: State, known: Known, rig: Rig) -> bool:
    """The same, and secured against coming back, where that is asked of the circuit."""
    return _all_off(state.secured if known.asks_lock else state.open, state, known, rig)


def is_settled(state: State, known: Known, rig: Rig) -> bool:
    """Isolated for as long as is asked."""
    return state.waited >= enough(state, known, rig) and is_isolated(state, known, rig)


def enough(state: State, known: Known, rig: Rig) -> float:
    """The waiting time that is asked for, in seconds; of circuits that may have become one the longest."""
    if not state.joined:
        return known.enough
    return max(known.enough, *(other.enough for other in (known, *rig.joined_to(known, state.joined))))


def is_accessible(state: State, known: Known, rig: Rig) -> bool:
    """Isolated, locked and settled: what proving it dead asks for. 48 V power is proved without a wait."""
    if known.category == "power":
        return is_isolated(state, known, rig)
    return is_locked(state, known, rig) and is_settled(state, known, rig)


def is_dead(state: State, known: Known, rig: Rig) -> bool:
    """Locked, settled, read at every pair, and nothing known against it. Of other energies: read as safe."""
    return (
        not state.charged
        and not state.found
        and (bool(state.proved & ASSUMED_PROOF) or (known.pairs_complete and state.proved == known.whole_proof))
        and is_locked(state, known, rig)
        and is_settled(state, known, rig)
    )


def lacks_halves_only(level: Level, state: State, known: Known, rig: Rig) -> bool:
    """Whether a circuit would be dead, had the other half of a connector been read that was apart at the proof."""
    if level != "dead" or not known.halves or is_dead(state, known, rig):
        return False
    return is_dead(state._replace(proved=known.whole_proof & (state.proved | known.other_halves)), known, rig)


def holds(level: Level, state: State, known: Known, rig: Rig) -> bool:
    """Whether a circuit is at least as safe as a level says."""
    if level == "dead":
        return is_dead(state, known, rig)
    if level == "access":
        return is_accessible(state, known, rig)
    if level == "waited":
        return is_locked(state, known, rig) and is_settled(state, known, rig)
    if level == "locked":
        return is_locked(state, known, rig)
    if level == "isolated":
        return is_isolated(state, known, rig)
    return level == "live" or bool(state.open & rig.mode_off) or is_isolated(state, known, rig)


def is_as_said(level: Level, state: State, known: Known, rig: Rig) -> bool:
    """Whether a circuit is in a state that a file declares: a charge or a failed proof is worse than any of them."""
    if level in ("live", "switched off"):
        return holds(level, state, known, rig)
    return not state.charged and not state.found and holds(level, state, known, rig)


def made_to_hold(level: Level, state: State, known: Known, rig: Rig) -> tuple[State, ...]:
    """The least safe states that are at least as safe as this one and in which the level holds.

    Several where a source can be taken off in several ways.
    """
    return (state,) if holds(level, state, known, rig) else least_safe(ways_to_hold(level, state, known, rig))


def ways_to_hold(level: Level, state: State, known: Known, rig: Rig) -> tuple[State, ...]:
    """For every choice of ways, one for each source, the state in which the level holds; not only the least safe."""
    if level == "switched off":
        return (state._replace(open=state.open | rig.mode_off),)
    ways = list(_ways(state, known, rig))
    waits = level in ("dead", "waited") or (level == "access" and known.category != "power")
    lock = (waits or level == "locked") and known.asks_lock
    proof = known.whole_proof if known.pairs_complete else ASSUMED_PROOF
    found = []
    for choice in product(*ways):
        bits = 0
        for way in choice:
            bits |= way
        now = state._replace(open=state.open | bits, secured=state.secured | bits if lock else state.secured)
        if waits:
            now = now._replace(waited=enough(state, known, rig))
        if level == "dead":
            now = now._replace(proved=state.proved | proof, charged=False, found=False)
        found.append(now)
    return tuple(found)


def word_of(state: State, known: Known, rig: Rig) -> Word:
    """How a state is told to people. What a stuck contactor keeps on its battery is live with all switched off."""
    if state.found:
        return "not dead"
    if state.charged:
        return "charged by test"
    if is_dead(state, known, rig):
        return "proved dead"
    if not is_isolated(state, known, rig):
        is_off = state.open & rig.mode_off and all(known.ways) and not known.stays_fed
        return "switched off" if is_off else "live"
    if not is_locked(state, known, rig):
        return "disconnected"
    if is_settled(state, known, rig) and enough(state, known, rig):
        return "waited"
    return "secured" if known.asks_lock else "disconnected"  # where no wait is asked, none is told


def _all_off(points: int, state: State, known: Known, rig: Rig) -> bool:
    if points & ASSUMED:
        return True
    for ways in known.ways:
        for way in ways:
            if not way & ~points:
                break
        else:
            return False
    if state.joined:
        others = rig.joined_to(known, state.joined)
        return all(any(not way & ~points for way in ways) for other in others for ways in other.ways)
    return True


def _ways(state: State, known: Known, rig: Rig) -> Iterator[tuple[int, ...]]:
    """For each source that still feeds the circuit, the ways to take it off; all of it assumed where there is none."""
    for one in (known, *rig.joined_to(known, state.joined)):
        for ways in one.ways:
            yield ways or (ASSUMED,)
