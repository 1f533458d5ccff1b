"""A procedure that meets class B does not say who may do it.

## Why it matters

Who works on high-voltage systems of vehicles has been trained for it, and for how far: instructed, qualified for work on
what is dead, or for work on what is live. Whoever reads must see it before they begin. A procedure that performs one for
trained people is for trained people itself.

## Fails

```yaml fails procedure
title: Isolate the traction system  # <- this procedure meets voltage class B and does not say who may do it
people: {at_least: 2}
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Passes

```yaml passes procedure
title: Isolate the traction system
people: {at_least: 2, who: One person qualified for work on dead high-voltage systems}
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Source

DGUV Information 209-093 (levels of qualification); UK HSE guidance on electric and hybrid vehicles.
"""

from collections.abc import Iterator

from ...diagnostics.place import Path
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot
from ._people import blamed, of_step
from ._steps import energised, glove_steps
from .class_b_work_alone import check_procedure as work_alone
from .proving_dead_alone import alone as proving_alone

KIND = "practice"
SEVERITY = "warning"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Procedures with a step at class B and without `people: {who: …}`."""
    if case.vehicle is None or procedure.broken or procedure.qualification is not None:
        return
    met = next((step for step, _ in glove_steps(procedure, case.vehicle)), None)
    if met is None:
        live = (step for step in procedure.steps if not step.broken and energised(step.action, case.vehicle))
        met = next(live, None)
    if met is None:
        yield from _performed(procedure, case)
        return
    if _is_said(procedure, case):
        return
    yield Fault(
        ("title",),
        "this procedure meets voltage class B and does not say who may do it",
        "only people who are trained for it, and for how far, may work there",
        "add `people: {at_least: 2, who: …}`, such as `who: One person qualified for work on dead high-voltage systems`",
        see=(Spot(procedure.file, of_step(met), "met here", key=True),),
    )


def _performed(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What it performs is for trained people only, however far down: then all of it is."""
    waiting = [(name, at) for name, at in _performs(procedure.id, case)]
    seen: set[str] = set()
    while waiting:
        name, at = waiting.pop(0)
        known = case.facts.get(name)
        if known is None or known.folder != procedure.folder or name in seen:
            continue
        seen.add(name)
        if known.qualification is not None:
            yield Fault(
                ("title",),
                f"this procedure performs `{name}` and does not say who may do it",
                f"that one is for: {known.qualification}",
                "add `people: {at_least: 2, who: …}` with the same words, so that the reader knows before the first step",
                see=(Spot(procedure.file, at, "performed here"),),
            )
            return
        waiting += [(inner, at) for inner, _ in _performs(name, case)]


def _performs(name: str, case: Case) -> Iterator[tuple[str, Path]]:
    known = case.facts.get(name)
    return iter(()) if known is None else zip(known.performs, known.performed_at, strict=True)


def _is_said(procedure: Procedure, case: Case) -> bool:
    """Whether the missing `people` is reported already, with the same line to write."""
    if procedure.people is not None:
        return False
    if any(blamed(step, procedure) is None for step, _ in proving_alone(procedure, case)):
        return True
    return any(fault.key for fault in work_alone(procedure, case))
