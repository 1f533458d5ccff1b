"""What a state lacks of what is asked: points still closed or unlocked, waiting, pairs not read."""

from collections.abc import Iterator
from dataclasses import dataclass

from .halves import Half
from .holds import Level, enough, is_isolated
from .rig import Known, Rig
from .state import State


@dataclass(frozen=True, slots=True)
class Lacks:
    """What is missing. `open` and `secured` name isolation points; `seconds` of waiting, None where none helps.

    `pairs` are read as the profile names them. `apart` are the connectors of which one half is not proved, `others` the
    pairs of that half. `never` where a source of the circuit cannot be taken off.
    """

    open: tuple[str, ...] = ()
    secured: tuple[str, ...] = ()
    seconds: float | None = 0
    pairs: tuple[str, ...] = ()
    discharge: bool = False
    never: bool = False
    apart: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


def lacks(level: Level, state: State, known: Known, rig: Rig) -> Lacks:
    """What has to be done before a level holds, by the shortest way of each source."""
    closed = _missing(state.open, state, known, rig)
    if level == "switched off":
        return Lacks(open=("mode-off",))
    asks_lock = level in ("locked", "waited", "dead") or (level == "access" and known.category != "power")
    unlocked = _missing(state.secured, state, known, rig) if asks_lock and known.asks_lock else 0
    waits = level in ("waited", "dead") or (level == "access" and known.category != "power")
    seconds: float | None = 0
    asked = enough(state, known, rig)
    if waits and state.waited < asked:
        endless = asked == float("inf")
        seconds = None if endless else asked - (state.waited if is_isolated(state, known, rig) else 0)
    pairs = known.pairs.items() if level == "dead" else ()
    halves = tuple(_unread_halves(state, known)) if level == "dead" else ()
    return Lacks(
        open=tuple(_names(closed or 0, rig)),
        secured=tuple(_names(unlocked or 0, rig)),
        seconds=seconds,
        pairs=tuple(_pair_words(pair) for pair, bit in pairs if not state.proved & bit),
        discharge=level == "dead" and state.charged,
        never=closed is None,
        apart=tuple(dict.fromkeys(half.connector for half in halves)),
        others=tuple(dict.fromkeys(_pair_words(pair) for half in halves for pair in half.others)),
    )


def _unread_halves(state: State, known: Known) -> Iterator[Half]:
    """The halves that are not proved, though the pairs of the profile are, or that may be apart when these are read."""
    all_read = not (1 << len(known.pairs)) - 1 & ~state.proved
    yield from (half for half in known.halves if not state.proved & half.bit and (all_read or not state.on & half.plug))


def _missing(points: int, state: State, known: Known, rig: Rig) -> int | None:
    """The points that are missing of the way that needs fewest, for every source; None where there is no way."""
    missing = 0
    for one in (known, *rig.joined_to(known, state.joined)):
        for ways in one.ways:
            if not ways:
                return None
            missing |= min((way & ~points for way in ways), key=int.bit_count)
    return missing


def _names(bits: int, rig: Rig) -> Iterator[str]:
    return (name for name, bit in rig.points.items() if bits & bit)


def _pair_words(pair: object) -> str:
    return (
        " to ".join(sorted(pair, key=lambda name: (name == "chassis", name)))
        if isinstance(pair, frozenset)
        else str(pair)
    )
