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
from bayleaf.rules.safety._tell import mending
from bayleaf.safety.breaches import Breach, Court
from bayleaf.safety.survey import Surveyor
from demo_kit import DAY, demo
from kit import PLACES, PROCEDURE, TODAY, write_manual
from safety.demo_mutants import mutants
from thinned import some

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
#: The second isolation of this one lies before a step where the ways part: three steps miss it, none of which mends it all.
BACK = "larkway-m12/interlock-open-2"


@pytest.mark.parametrize("procedure", LEFT_OUT)
def test_a_missing_isolation_is_told_once(request: pytest.FixtureRequest, procedure: Procedure) -> None:
    """At the step that asks for it; what only relied on it is left out."""
    every, told = found(procedure)

    assert len(every) > 1
    assert told and {one.identity for one in told} <= {one.identity for one in every}
    assert len(told) == (2 if procedure.id in TWO else 1)
    assert (request.node.callspec.id == BACK) == any(one.mended_before for one in told)


def test_where_several_steps_miss_it_the_step_before_which_it_belongs_is_named() -> None:
    """The step at which the ways to them part; each of them alone would have to ask for it otherwise."""
    (procedure,) = (each.values[0] for each in LEFT_OUT if each.id == BACK)
    every, (told,) = found(procedure)
    where = next(step.number for step in procedure.steps if step.id == "inner-look")

    assert len({one.spots[0].step.number for one in every if one.spots and one.lacks}) > 2
    assert where == told.mended_before
    case = Case(
        Outlook(MANUAL.folder, MANUAL.facts, {}, {}, {}, MANUAL.album, {}), MANUAL.vehicles["larkway-m12"], None, DAY
    )
    assert f"add `perform: larkway-m12/isolate-traction` before step {where}, on every path" == mending(told, case)


@pytest.mark.parametrize(
    ("name", "which", "kind"),
    some(
        [("larkway-m12/find-insulation-fault", 0, "not refitted"), ("larkway-m12/interlock-open", 1, "not plugged")], 2
    ),
)
def test_another_mistake_is_told_all_the_same(name: str, which: int, kind: str) -> None:
    """Of the job without an isolation something is not put back either: whatever is found of that is told."""
    whole, count = MANUAL.procedures[name], 0
    for mutant in mutants(kind, whole.id):
        faulty = replace(whole, steps=mutant.steps)
        own = {one.identity for one in found(faulty)[0]}
        every, told = found([*without(faulty)][which])
        expected = [one for one in every if one.identity in own]
        count += len(expected)
        assert [] == [one.identity for one in expected if one.identity not in {each.identity for each in told}]
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
