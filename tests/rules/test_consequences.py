"""An isolation that is not performed is one mistake, and told once, however much was resting on it."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from bayleaf.graph.build import build_graph
from bayleaf.manual import load_manual
from bayleaf.model.actions import Perform
from bayleaf.model.procedure import Procedure
from bayleaf.rules.case import Case
from bayleaf.rules.consequences import without_consequences
from bayleaf.rules.outlook import Outlook
from bayleaf.safety.breaches import Breach, Court
from bayleaf.safety.survey import Surveyor
from demo_kit import DAY, demo
from kit import PLACES, PROCEDURE, TODAY, write_manual
from safety.demo_mutants import mutants

MANUAL = demo()


def without(procedure: Procedure) -> Iterator[Procedure]:
    """The procedure without each isolation that it performs and nothing leads back to."""
    for step in procedure.steps:
        performed = MANUAL.procedures[step.action.procedure] if isinstance(step.action, Perform) else None
        if performed is not None and performed.kind == "isolation" and not (step.id and _leads_to(procedure, step.id)):
            yield replace(procedure, steps=tuple(one for one in procedure.steps if one is not step))


def _leads_to(procedure: Procedure, name: str) -> bool:
    return any(name in (one.then, one.exhausted, *dict(one.outcomes).values()) for one in procedure.steps)


def found(procedure: Procedure) -> tuple[tuple[Breach, ...], tuple[Breach, ...]]:
    """What the walk finds, and what is told of it."""
    of = MANUAL.surveyors[procedure.folder]

    def graph(one: Procedure):  # noqa: ANN202
        return build_graph(one, MANUAL.facts) if one.steps is procedure.steps else of.graph(one.id)

    surveyor = Surveyor(of.vehicle, {**of.procedures, procedure.id: procedure}, graph)
    outlook = Outlook(MANUAL.folder, MANUAL.facts, MANUAL.procedures, MANUAL.vehicles, {}, MANUAL.album, {})
    case = Case(outlook, of.vehicle, MANUAL.workshop, DAY)
    every = Court(surveyor).breaches(procedure.id)
    return every, without_consequences(procedure.id, every, surveyor, case, lambda _: None)


LEFT_OUT = [
    pytest.param(one, id=f"{name}-{number}")
    for name, procedure in MANUAL.procedures.items()
    if procedure.kind not in ("isolation", "return to service")
    for number, one in enumerate(without(procedure), 1)
]
#: One more is told: that the sealed battery is balanced before it is dead is a mistake of its own once it comes off live.
TWO = ("larkway-m12/replace-traction-battery",)
#: The second isolation of this one lies on a way back to steps that the first had made safe: no one place mends it all.
MANY = ("larkway-m12/interlock-open-2",)


@pytest.mark.parametrize("procedure", LEFT_OUT)
def test_a_missing_isolation_is_told_once(request: pytest.FixtureRequest, procedure: Procedure) -> None:
    """At the step that asks for it; what only relied on it is left out."""
    every, told = found(procedure)

    assert len(every) > 1
    assert told and all(any(one is other for other in every) for one in told)
    if not request.node.callspec.id.startswith(MANY):
        assert len(told) == (2 if procedure.id in TWO else 1)


def test_another_mistake_is_told_all_the_same() -> None:
    """Of the job without its isolation a part is not refitted either: whatever is found of that is told."""
    whole, count = MANUAL.procedures["larkway-m12/find-insulation-fault"], 0
    for mutant in mutants("not refitted", whole.id):
        faulty = replace(whole, steps=mutant.steps)
        own = {one.identity for one in found(faulty)[0]}
        every, told = found(next(without(faulty)))
        expected = [one for one in every if one.identity in own]
        count += len(expected)
        assert [] == [one for one in expected if one not in told]
    assert count


def test_nothing_is_left_out_where_no_isolation_is_missing() -> None:
    """A mistake that no isolation mends keeps all that follows from it."""
    whole = MANUAL.procedures["larkway-m12/find-insulation-fault"]
    for mutant in mutants("not refitted", whole.id):
        every, told = found(replace(whole, steps=mutant.steps))
        assert every == told


def test_an_error_is_never_hidden(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where what stays would only warn, or is not told at all, everything is told."""
    folder = write_manual(tmp_path, {PLACES["procedure"]: PROCEDURE + "  - remove: inverter-cover\n"})
    told = load_manual(folder, TODAY).findings
    assert {"cover-opened-too-early", "left-out-of-place"} <= {one.rule for one in told}

    monkeypatch.setattr("bayleaf.manual_inspection.without_consequences", lambda *_: ())
    assert {one.rule for one in told} <= {one.rule for one in load_manual(folder, TODAY).findings}
