"""Circles of procedures that perform each other."""

from collections.abc import Mapping

from ..model.facts import Facts


def circles(facts: Mapping[str, Facts]) -> Mapping[str, tuple[str, ...]]:
    """For the first procedure by name of each circle, a shortest way round; each circle once."""
    found: dict[str, tuple[str, ...]] = {}
    told: set[str] = set()
    for name in sorted(_leading_to_themselves(facts)):
        if name not in told:
            found[name] = _way_round(name, facts)
            told.update(found[name])
    return found


def _leading_to_themselves(facts: Mapping[str, Facts]) -> set[str]:
    """What is left when procedures that perform nothing of the rest are taken away again and again."""
    performs = {name: {one for one in fact.performs if one in facts} for name, fact in facts.items()}
    callers: dict[str, list[str]] = {}
    for name, callees in performs.items():
        for callee in callees:
            callers.setdefault(callee, []).append(name)
    done = [name for name, callees in performs.items() if not callees]
    for name in done:  # grows while it is walked
        for caller in callers.get(name, ()):
            performs[caller].discard(name)
            if not performs[caller]:
                done.append(caller)
    rest = performs.keys() - set(done)
    return {name for name in rest if _way_round(name, facts)}


def _way_round(start: str, facts: Mapping[str, Facts]) -> tuple[str, ...]:
    came_from: dict[str, str] = {}
    waiting = [start]
    for here in waiting:  # grows while it is walked: the nearest first
        for there in facts[here].performs:
            if there == start:
                way = [here]
                while way[-1] != start:
                    way.append(came_from[way[-1]])
                return tuple(reversed(way))
            if there in facts and there not in came_from:
                came_from[there] = here
                waiting.append(there)
    return ()
