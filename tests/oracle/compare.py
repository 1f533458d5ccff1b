"""The walk against the oracle: the same findings on every random manual, or the smallest manual on which they part."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from functools import lru_cache
from typing import Any

from bayleaf.model.procedure import Procedure, Step

from . import steps as made_of
from .judge import Found, Judge
from .make import Case, make
from .quotas import Judging, Quotas, Results

#: Shrinking tries so many smaller manuals at most.
TRIES = 400


@dataclass(frozen=True, slots=True)
class Difference:
    """A manual that is judged in two ways: what only the oracle finds, and what only the walk does."""

    index: int
    case: Case
    root: str
    missed: frozenset[Found]
    false: frozenset[Found]

    def __str__(self) -> str:
        lines = [f"case {self.index}, {self.root}, made as: {', '.join(self.case.made)}"]
        lines += [f"  missed by the walk:      {_told(one)}" for one in sorted(self.missed)]
        lines += [f"  found by the walk alone: {_told(one)}" for one in sorted(self.false)]
        return "\n".join([*lines, *readable(self.case)])


@dataclass(slots=True)
class Report:
    """What a run has shown. `longer` counts cases that agree only where loops are walked without a bound."""

    quotas: Quotas
    differing: list[int] = field(default_factory=list)
    longer: list[int] = field(default_factory=list)
    smallest: Difference | None = None

    @property
    def is_good(self) -> bool:
        """No difference, and enough cases of every kind."""
        return not self.differing and not self.quotas.short()

    def __str__(self) -> str:
        lines = [str(self.quotas), f"  differences: {len(self.differing)} {self.differing[:12] or ''}"]
        if self.longer:
            lines.append(f"  equal only with more than two visits: {len(self.longer)} {self.longer[:12]}")
        lines += [f"  too few: {kind}" for kind in self.quotas.short()]
        return "\n".join([*lines, *([str(self.smallest)] if self.smallest is not None else [])])


def run(
    count: int,
    seed: int,
    walk: Judging | None,
    joined_only: Judging | None = None,
    first: int = 0,
    step: int = 1,
    enough: int | None = None,
) -> Report:
    """Judges cases of a seed by both; without a walk only the quotas are counted.

    `enough` is the number of differences after which no more are looked for.
    """
    report = Report(Quotas(joined_only))
    smallest: Difference | None = None
    for index in range(first, count, step):
        case, judge, results = judged(seed, index)
        report.quotas.add(case, judge, results)
        if walk is None:
            continue
        if len(report.differing) == enough:
            break
        found = difference(index, case, judge, results, walk)
        if found is not None and found.missed | found.false:
            report.differing.append(index)
            smallest = found if smallest is None or found.case.size < smallest.case.size else smallest
        elif found is not None:
            report.longer.append(index)
    if smallest is not None and walk is not None:
        report.smallest = shrunk(smallest, walk)
    return report


@lru_cache(maxsize=512)
def judged(seed: int, index: int) -> tuple[Case, Judge, Results]:
    """A case as the oracle judges it. The first ones of a seed are asked for by test after test."""
    case = make(seed, index)
    judge = Judge(case.procedures, case.vehicle)
    return case, judge, {root: judge.judge(root) for root in case.roots}


def difference(index: int, case: Case, judge: Judge, results: Results, walk: Judging) -> Difference | None:
    """Where the two do not agree. One that is empty stands for a case that needs more rounds than the oracle walks."""
    longer = None
    for root, expected in results.items():
        actual = frozenset(Found(*one) for one in walk(root, case.procedures, case.vehicle))
        if actual != expected:
            expected = judge.judge(root, visits=None)
            if actual != expected:
                return Difference(index, case, root, expected - actual, actual - expected)
            longer = Difference(index, case, root, frozenset(), frozenset())
    return longer


def shrunk(found: Difference, walk: Judging) -> Difference:
    """The difference with every step left out that it does not need."""
    tries, again = 0, True
    while again:
        again = False
        for case in _smaller(found.case):
            tries += 1
            if tries > TRIES:
                return found
            judge = Judge(case.procedures, case.vehicle)
            new = difference(
                found.index, replace(case, roots=(found.root,)), judge, {found.root: judge.judge(found.root)}, walk
            )
            if new is not None and new.missed | new.false:
                found, again = new, True
                break
    return found


def _smaller(case: Case) -> Iterator[Case]:
    for name, procedure in case.procedures.items():
        for index in reversed(range(len(procedure.steps))):
            fewer = [*procedure.steps[:index], *procedure.steps[index + 1 :]]
            again = made_of.procedure(name, fewer, procedure.conclusions.values())
            again = replace(again, expects=procedure.expects, handles=procedure.handles, faults=procedure.faults)
            yield replace(case, procedures={**case.procedures, name: again})


def _told(found: Found) -> str:
    return f"step {'.'.join(found.path)}: {found.subject}, {found.demand}"


def readable(case: Case) -> list[str]:
    """The vehicle and the steps of a manual, a line each."""
    lines = []
    for circuit in case.vehicle.circuits.values():
        sources = "; ".join(
            f"{one.name} {' or '.join('+'.join(some) for some in one.taken_off_by) or one.kind}"
            for one in circuit.sources
        )
        kind = "class B" if circuit.is_class_b else "power"
        says = "" if "rotation" in circuit.says else ", nothing said of rotation"
        lock = ", lock" if circuit.lock else ""
        lines.append(
            f"  circuit {circuit.id}: {kind}{lock}{says}; {sources}; stored {plain(circuit.stored)}; {plain(circuit.rotation)}"
        )
    for point in case.vehicle.isolation_points.values():
        lines.append(f"  point {point.id}: {plain(point)}")
    lines += [
        f"  part {part.id}: circuits {part.circuits}, exposes {part.exposes}" for part in case.vehicle.parts.values()
    ]
    lines += [f"  fastener {one.id}: {plain(one)}" for one in case.vehicle.fasteners.values()]
    for procedure in case.procedures.values():
        lines += _procedure(procedure)
    return lines


def _procedure(procedure: Procedure) -> list[str]:
    more = [f"{key} {value}" for key in ("expects", "handles", "faults") if (value := getattr(procedure, key))]
    ends = [f"{end.id} {'stops' if end.stops else 'returns'}" for end in procedure.conclusions.values()]
    return [f"  procedure {'; '.join([procedure.id, *more, *ends])}", *map(_step, procedure.steps)]


def _step(step: Step) -> str:
    more = [f"on {', '.join(step.on)}"] if step.on else []
    more += [f"then {step.then}"] if step.then else []
    more += [f"repeat {step.repeat}"] if step.repeat else []
    more += [f"{exit} → {target}" for exit, target in step.outcomes]
    name = f" ({step.id})" if step.id else ""
    return f"    {step.number:>3}{name} {'; '.join([plain(step.action), *more])}"


def plain(value: Any) -> str:
    """A value of the model in few words: what is empty or only a place is left out."""
    if hasattr(value, "then") and hasattr(value, "text"):
        return f"{value.text} → {value.then}"
    if hasattr(value, "__dataclass_fields__") and "__str__" not in type(value).__dict__:
        shown = (getattr(value, one.name) for one in fields(value) if one.name not in ("at", "id", "name"))
        named = [value.name] if hasattr(value, "name") and hasattr(value, "where") else []
        words = " ".join(filter(None, map(plain, [*named, *shown])))
        return f"{getattr(type(value), 'key', type(value).__name__.lower())} {words}".strip()
    if isinstance(value, (tuple, list)):
        return f"[{', '.join(map(plain, value))}]" if value else ""
    if isinstance(value, Mapping) or value in (None, False, "", frozenset()):
        return ""
    return str(value)
