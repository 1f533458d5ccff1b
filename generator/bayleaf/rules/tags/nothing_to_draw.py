"""A free page asks for a drawing that nothing is known of.

## Why it matters

A drawing shows what the profile or the procedure says. Where that says nothing, there would be an empty place, and the
reader would take it for the answer.

## Fails

```markdown fails page
[[discharge: test-van supply-12]]  <!-- <- nothing is known of how `supply-12` discharges -->
```

```markdown fails page
[[discharge: test-van/isolate 1]]  <!-- <- step `1` of `test-van/isolate` is no wait for a circuit that discharges -->
```

```markdown fails page
[[face: test-van X1]]  <!-- <- the profile does not say how the pins of `X1` lie -->
```

## Passes

```markdown passes page
[[discharge: test-van traction]]

[[discharge: test-van/isolate 6]]
```

## Source

The format of free pages. A curve needs the highest voltage, the capacitance and the bleed resistance of the circuit; the
face of a connector is its `face`.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.free_page import DRAWN, FreePage, Tag
from ...model.vehicle import Vehicle
from ...safety.wait import required_wait
from ..case import Case
from ..fault import Fault
from ._words import readable_tags

KIND = "form"
SEVERITY = "error"


def check_page(page: FreePage, case: Case) -> Iterator[Fault]:
    """Every drawing whose names lead somewhere."""
    for number, tag, form in readable_tags(page):
        told = _told(tag, form, case) if tag.word in DRAWN else None
        if told is not None:
            yield Fault(("tags", number), told[0], help=told[1], span=(tag.names[-1].start, tag.names[-1].end))


def _told(tag: Tag, form: tuple[str, ...], case: Case) -> tuple[str, str] | None:
    first, last = tag.names[0].text, tag.names[-1].text
    if form[0] == "procedure":
        return _of_step(first, last, case) if "step" in form else None
    vehicle = case.vehicles.get(first)
    if vehicle is None:
        return None
    if tag.word == "energy":
        return None if vehicle.circuits else (f"the profile of `{first}` has no circuit", "describe its circuits first")
    connector = vehicle.connectors.get(last) if tag.word == "face" else None
    if connector is not None and not connector.face:
        return (
            f"the profile does not say how the pins of `{last}` lie",
            f"write `face` with its rows at the connector `{last}`",
        )
    if tag.word == "discharge" and last in vehicle.circuits and not _discharges(last, vehicle):
        help_ = (
            f"write capacitance and bleed of `{last}` under `stored`, and its highest voltage, or leave the curve out"
        )
        return f"nothing is known of how `{last}` discharges", help_
    return None


def _of_step(procedure: str, name: str, case: Case) -> tuple[str, str] | None:
    known = case.procedures.get(procedure)
    vehicle = case.vehicles.get(known.folder) if known is not None else None
    step = known.step_named(name) if known is not None else None
    if vehicle is None or step is None or step.broken:
        return None
    if isinstance(step.action, actions.Wait) and any(_discharges(one, vehicle) for one in step.action.what_for):
        return None
    message = f"step `{name}` of `{procedure}` is no wait for a circuit that discharges"
    return message, "name a step with `wait` and `for`, or a vehicle and a circuit"


def _discharges(circuit: str, vehicle: Vehicle) -> bool:
    return circuit in vehicle.circuits and required_wait(vehicle.circuits[circuit]).has_curve
