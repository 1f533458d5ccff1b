"""The voltmeter method is used, and nothing is said of live work.

## Why it matters

The voltmeter method reads the insulation with the battery connected: it is live work by its nature. Whoever is qualified for
work on dead systems alone is not qualified for it. That adapters are fitted while the circuit is dead, and that two people are
there, is asked by other rules.

## Fails

Shown file by file in the tests: `people` names somebody who is qualified for work on dead systems.

## Passes

The same with `who: One person qualified for live work on high-voltage systems`.

## Source

UN R100, Annex 4A/5A (voltmeter method); DGUV Information 209-093 (live work is a level of its own).
"""

import re
from collections.abc import Iterator

from ...model import actions
from ...model.pins import circuits_at, contacts_of
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "practice"
SEVERITY = "warning"
STEPS = (actions.Compute,)

_LIVE = re.compile(r"\b(?:live|energi[sz]ed|under voltage)\b", re.IGNORECASE)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each such computation from readings at class B; a procedure that says nothing at all is reported elsewhere."""
    computed: actions.Compute = step.action  # type: ignore[assignment]
    said = procedure.qualification
    if computed.formula != "insulation by voltmeter" or case.vehicle is None or said is None or _LIVE.search(said):
        return
    for other in procedure.steps:
        if other.id in computed.of and isinstance(other.action, actions.Measure):
            for name in circuits_at(contacts_of(other.action), case.vehicle):
                if name in case.vehicle.circuits and case.vehicle.circuits[name].is_class_b:
                    yield Fault(
                        (*step.at, "formula"),
                        f"the voltmeter method is live work at `{name}`, but `who` says nothing of live work",
                        "it is read with the battery connected; whoever works on dead systems only may not do it",
                        "write who may, such as `who: One person qualified for live work on high-voltage systems`",
                    )
                    return
