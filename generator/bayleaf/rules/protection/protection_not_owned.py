"""The workshop has no protection, or no tools, for what a step asks.

## Why it matters

Gloves alone do not keep an arc from the face, and what they are worn under keeps them whole. What a step asks for is worked
out from the circuits that it meets and printed beside it; it has to lie in the cabinet before the job begins. Gloves have
rules of their own.

| met | asked for |
|---|---|
| class B | over-gloves, face shield, insulated tools |
| 48 V power | eye protection (a face shield counts), insulated tools |

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
protection:
  gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}
  over-gloves: {kind: over-gloves}
  safety-glasses: {kind: eye protection}
```

```yaml fails beside procedure
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug  # <- the workshop has no face shield, but `traction` has up to 410 V DC
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

```yaml passes workshop
protection:
  gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}
  over-gloves: {kind: over-gloves}
  face-shield: {kind: face shield}
```

## Source

EN 50110-1 (personal protection for work near live parts; from memory), IEC 60900 (insulated tools); common practice.
"""

from collections.abc import Callable, Iterator, Mapping

from ...model.procedure import Procedure, Step
from ...model.vehicle import Circuit
from ...model.workshop import Workshop
from ...safety.protection import Wanted, WantedKind
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._gloves import is_proving, workshop_of
from ._people import of_step
from ._steps import has, steps_with_protection
from .insulated_tools_too_weak import is_insulated_enough

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The first step that asks for something which is not there. What it is called does not count, only its `kind`.

    What is done on a circuit that is proved dead asks for nothing.
    """
    workshop = workshop_of(case)
    if workshop is None or case.vehicle is None:
        return
    faults = []
    for step, wanted in steps_with_protection(procedure, case.vehicle):
        for one in wanted if is_proving(step) else ():
            if not _is_owned(one, case.vehicle.circuits[one.circuit], workshop):
                faults.append(_fault(step, one, case.vehicle.circuits[one.circuit], workshop))
    yield from once(faults, procedure.file)


def _is_owned(wanted: Wanted, circuit: Circuit, workshop: Workshop) -> bool:
    owned = _OWNED.get(wanted.kind)
    return owned is None or owned(circuit, workshop)


def _of_kind(*kinds: str) -> Callable[[Circuit, Workshop], bool]:
    return lambda circuit, workshop: any(one.kind in kinds for one in workshop.protection.values())


def _tools(circuit: Circuit, workshop: Workshop) -> bool:
    return any(is_insulated_enough(tool, circuit) for tool in workshop.tools.values())


#: What is asked for besides gloves, each with what shows that the workshop has it.
_OWNED: Mapping[WantedKind, Callable[[Circuit, Workshop], bool]] = {
    "over-gloves": _of_kind("over-gloves"),
    "face shield": _of_kind("face shield"),
    "eye protection": _of_kind("eye protection", "face shield"),
    "insulated tools": _tools,
}


def _fault(step: Step, wanted: Wanted, circuit: Circuit, workshop: Workshop) -> Fault:
    if wanted.kind == "insulated tools":
        where, mend = "tools", "`insulated_to` at the tools that are marked with a voltage"
    else:
        where, mend = "protection", f"`kind: {wanted.kind}` at the one that is"
    return Fault(
        of_step(step),
        f"the workshop has no {wanted.kind}, but {has(circuit)}",
        f"nothing under `{where}` in `{workshop.file}` says that it is {_A[wanted.kind]}",
        f"get {_A[wanted.kind]} before the job, and write {mend}",
        see=(Spot(workshop.file, (where,), "what there is", key=True),) if getattr(workshop, where) else (),
        key=True,
    )


_A: Mapping[WantedKind, str] = {
    "over-gloves": "a pair of over-gloves",
    "face shield": "a face shield",
    "eye protection": "eye protection",
    "insulated tools": "a tool insulated for this voltage",
}
