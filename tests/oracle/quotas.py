"""What the cases of a campaign are like, told by the oracle's own results; and how many of each kind there have to be."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from bayleaf.model import actions
from bayleaf.model.procedure import Procedure
from bayleaf.model.vehicle import Vehicle

from .judge import Found, Judge
from .make import Case

Results = Mapping[str, frozenset[Found]]
Judging = Callable[[str, Mapping[str, Procedure], Vehicle], frozenset[Found]]

SOUND, BACK_EDGE, IN_CALLEE, ONE_CALLER, TWO_SETS = (
    "sound", "needs a back edge", "in a callee", "for one of several callers", "two sets: the join alone alarms",
)  # fmt: skip
#: The least share of all cases.
LEAST = {SOUND: 0.30, BACK_EDGE: 0.10, IN_CALLEE: 0.10, ONE_CALLER: 0.10, TWO_SETS: 0.03}


@dataclass(slots=True)
class Quotas:
    """Counts cases by what they test. `joined_only` judges with the join alone; without it that kind is not asked for."""

    joined_only: Judging | None = None
    cases: int = 0
    counts: Counter = field(default_factory=Counter)
    demands: Counter = field(default_factory=Counter)

    def add(self, case: Case, judge: Judge, results: Results) -> None:
        """Counts a case; `results` are the findings of each of its roots."""
        self.cases += 1
        self.counts.update(self._kinds(case, judge, results))
        for found in results.values():
            self.demands.update({one.demand for one in found})

    def _kinds(self, case: Case, judge: Judge, results: Results) -> Iterator[str]:
        if not any(results.values()):
            yield SOUND
        elif any(found - judge.judge(root, visits=1) for root, found in results.items() if found):
            yield BACK_EDGE
        if any(len(one.path) > 1 for found in results.values() for one in found):
            yield IN_CALLEE
            if is_for_one_caller(case, results):
                yield ONE_CALLER
        if self.joined_only is not None and self._joined_alarms(case, results, self.joined_only):
            yield TWO_SETS

    def _joined_alarms(self, case: Case, results: Results, joined_only: Judging) -> bool:
        return any(joined_only(root, case.procedures, case.vehicle) - found for root, found in results.items())

    def merge(self, other: "Quotas") -> None:
        """Adds what another part of the campaign has counted."""
        self.cases += other.cases
        self.counts.update(other.counts)
        self.demands.update(other.demands)

    def short(self) -> list[str]:
        """The kinds of which there are too few."""
        asked = LEAST if self.joined_only is not None else {kind: LEAST[kind] for kind in LEAST if kind != TWO_SETS}
        return [kind for kind, share in asked.items() if self.counts[kind] < share * self.cases]

    def __str__(self) -> str:
        lines = [f"{self.cases} graphs"]
        for kind, share in LEAST.items():
            count = self.counts[kind]
            least = f"at least {share:.0%}" if kind != TWO_SETS or self.joined_only else "not asked for"
            lines.append(f"  {kind:34} {count:6} {count / max(self.cases, 1):6.1%}  {least}")
        shares = (f"{demand} {count}" for demand, count in self.demands.most_common())
        return "\n".join([*lines, "  demands not met: " + ", ".join(shares)])


def is_for_one_caller(case: Case, results: Results) -> bool:
    """Whether something in a performed procedure is found from one of the places that perform it, not from another."""
    places: dict[str, set[tuple[str, ...]]] = defaultdict(set)
    found: dict[tuple[str, object], set[tuple[str, ...]]] = defaultdict(set)
    for root in results:
        for path, callee in _calls(case.procedures, root, ()):
            places[callee].add((root, *path))
            for one in results[root]:
                if one.path[: len(path)] == path and len(one.path) > len(path):
                    found[callee, one._replace(path=one.path[len(path) :])].add((root, *path))
    return any(at < places[callee] for (callee, _), at in found.items())


def _calls(
    procedures: Mapping[str, Procedure], name: str, callers: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], str]]:
    """Every performed procedure, by the numbers of the steps that lead to it."""
    for step in procedures[name].steps:
        if isinstance(step.action, actions.Perform) and step.action.procedure not in (*callers, name):
            callee = step.action.procedure
            yield (step.number,), callee
            yield from (((step.number, *path), deeper) for path, deeper in _calls(procedures, callee, (*callers, name)))
