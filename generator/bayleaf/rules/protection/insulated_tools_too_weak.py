"""An insulated tool is too weak for the voltage.

## Why it matters

A tool that slips bridges two poles, or a pole and the housing. Its insulation is printed on it: 1000 V means up to
1000 V AC and 1500 V DC.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
tools:
  sockets: {name: Insulated sockets, insulated_to: 1000 V}
  hook-300: {name: Insulated hook, insulated_to: 300 V}
```

```yaml fails beside procedure
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
    tools: hook-300  # <- `hook-300` is insulated up to 300 V, but `traction` has up to 410 V DC
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

The workshop file and the procedure, shown file by file:

```yaml passes beside workshop
tools:
  sockets: {name: Insulated sockets, insulated_to: 1000 V}
  hook-1000: {name: Insulated hook, insulated_to: 1000 V}
```

```yaml passes beside procedure
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
    tools: hook-1000
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

IEC 60900:2018: hand tools for work up to 1000 V AC and 1500 V DC.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure, Step
from ...model.vehicle import Circuit, Vehicle
from ...model.workshop import Tool, Workshop
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._gloves import workshop_of
from ._steps import has, highest, steps_with_protection

KIND = "danger"
SEVERITY = "error"

#: What a tool to IEC 60900 is marked with, and the DC voltage that this means.
_MARKED, _MEANS_DC = 1000, 1500


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Tools named at a step whose insulation the workshop file knows."""
    workshop = workshop_of(case)
    if workshop is not None and case.vehicle is not None:
        yield from once(_faults(procedure, case.vehicle, workshop), procedure.file)


def _faults(procedure: Procedure, vehicle: Vehicle, workshop: Workshop) -> Iterator[Fault]:
    for step, wanted in steps_with_protection(procedure, vehicle):
        circuits = [vehicle.circuits[one.circuit] for one in wanted if one.kind == "insulated tools"]
        yield from _at_step(step, circuits, workshop) if step.tools else ()


def _at_step(step: Step, circuits: list[Circuit], workshop: Workshop) -> Iterator[Fault]:
    for index, name in enumerate(step.tools):
        tool = workshop.tools.get(name)
        if tool is None or tool.insulated_to is None:
            continue
        for circuit in circuits:
            if not is_insulated_enough(tool, circuit):
                yield Fault(
                    (*step.at, "tools", index) if len(step.tools) > 1 else (*step.at, "tools"),
                    f"`{name}` is insulated up to {tool.insulated_to}, but {has(circuit)}",
                    "a tool that slips bridges two poles, or a pole and the housing",
                    "name a tool that is marked 1000 V (up to 1000 V AC and 1500 V DC)",
                    see=(Spot(workshop.file, ("tools", name, "insulated_to"), "its insulation"),),
                )
                break


def is_insulated_enough(tool: Tool, circuit: Circuit) -> bool:
    """Whether a tool may be used at the voltage of a circuit; one that says nothing may not."""
    if tool.insulated_to is None:
        return False
    volts, kind = highest(circuit)
    marked = tool.insulated_to.si
    return volts <= (_MEANS_DC if kind == "dc" and marked >= _MARKED else marked)
