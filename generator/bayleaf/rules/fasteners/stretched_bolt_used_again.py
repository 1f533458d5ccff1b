"""A bolt that is used only once is fitted again.

## Why it matters

A bolt that was tightened into yield has been stretched for good, and a self-locking or sealing one has lost its grip. Fitted
again it may break or come loose, and nobody sees it.

## Fails

```yaml fails beside vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    torque: 20 N·m
    then_turn: 90°
    yields: yes
# and the others
```

```yaml fails beside procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - loosen: heater-bracket
  - remove: cabin-heater
  - refit: cabin-heater
  - tighten: heater-bracket  # <- `heater-bracket` is used only once, and is fitted again here
    tools: torque-wrench-small
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7, X210]
```

The profile and the procedure, shown file by file.

## Passes

```yaml passes procedure
steps:
  - do: Look at the bracket of the heater.
    on: nothing
```

## Source

VDI 2230 (tightening beyond yield); common practice of vehicle makers: such bolts are renewed.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure
from ...model.vehicle import Fastener
from ..case import Case
from ..fault import Fault, Spot

KIND = "validity"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Fasteners that yield or are used once, tightened again after they were undone, and not as new ones.

    Undone is told by the order of the file: loosened, or the part that they hold taken off or put back. One that
    yields may not be tightened a second time either.
    """
    if case.vehicle is None:
        return
    once = {one.id: one for one in case.vehicle.fasteners.values() if one.yields or one.one_use}
    used: dict[str, str] = {}
    for step in procedure.steps if once else ():
        action = step.action
        if isinstance(action, actions.Loosen | actions.Remove | actions.Refit):
            used |= {one.id: "undone" for one in once.values() if _is_undone(one, action)}
        elif isinstance(action, actions.Tighten) and not action.described and not step.broken:
            for index, name in enumerate(action.fasteners):
                before = used.get(name)
                again = before == "undone" or (before == "tightened" and bool(once[name].yields))
                if name in once and again and not action.new:
                    at = (*step.at, "tighten", index) if len(action.fasteners) > 1 else (*step.at, "tighten")
                    yield _fault(at, once[name], case)
                if name in once:
                    used[name] = "tightened"


def _is_undone(fastener: Fastener, action: actions.Loosen | actions.Remove | actions.Refit) -> bool:
    if isinstance(action, actions.Loosen):
        return fastener.id in action.fasteners
    return fastener.part is not None and fastener.part in action.parts


def _fault(at: tuple[str | int, ...], fastener: Fastener, case: Case) -> Fault:
    assert case.vehicle is not None
    why = "tightened into yield" if fastener.yields else "used only once, says the profile"
    spot = Spot(case.vehicle.file, fastener.at, f"it is {why}", key=True)
    text = f"`{fastener.id}` is used only once, and is fitted again here"
    return Fault(at, text, f"it is {why}", "fit a new one, and write `new: yes`", see=(spot,))
