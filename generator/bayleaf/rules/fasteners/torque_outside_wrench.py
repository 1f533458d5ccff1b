"""No torque wrench covers a torque.

## Why it matters

Below its range a wrench clicks at chance, and above it does not click at all. With a crow foot the wrench has to be set to
less than the torque at the nut, and it is the setting that has to lie in its range.

## Fails

```yaml fails procedure
steps:
  - tighten: Screws of the cover
    torque: 2 N·m
    size: M4
    tools: torque-wrench-small  # <- `torque-wrench-small` would be set to 2 N·m; its range is 5 N·m to 25 N·m
    source: workshop practice
    on: nothing
```

## Passes

```yaml passes procedure
steps:
  - tighten: Screws of the ground strap
    torque: 20 N·m
    size: M8
    tools: torque-wrench-small
    source: workshop practice
    on: nothing
```

## Source

ISO 6789-1:2017: a tool is used from its lowest marked value to its maximum. T_set = T · L / (L + E · cos θ) for an adapter of
length E at the angle θ.
"""

from collections.abc import Iterator
from typing import NamedTuple

from ...diagnostics.place import Path
from ...limits.wrench import Setting, setting_on, wrenches
from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Adapter, Vehicle
from ...model.workshop import Workshop
from ...quantities.limit import Limit
from ..case import Case
from ..fault import Fault, Spot
from ._joints import newton_metres

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Tighten,)


class _Wanted(NamedTuple):
    """A torque to be tightened to, in N·m, with its adapter."""

    name: str
    torque: float
    adapter: Adapter | None


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The wrenches that the step names, else all of the workshop, where it lists any."""
    workshop = case.workshop
    if workshop is None or workshop.broken:
        return
    known = {one.id: one for one in wrenches(workshop)}
    named = [name for name in step.tools if name in known]
    for wanted in _wanted(step, case.vehicle) if known else ():
        settings = [setting_on(one, wanted.torque, wanted.adapter) for one in known.values()]
        in_hand = [one for one in settings if one.wrench.id in named] or settings
        if not any(one.covers for one in in_hand):
            at = (*step.at, "tools") if named else (*step.at, "tighten")
            yield _fault(at, wanted, in_hand, [one for one in settings if one.covers], workshop, bool(named))


def _wanted(step: Step, vehicle: Vehicle | None) -> Iterator[_Wanted]:
    tighten: actions.Tighten = step.action  # type: ignore[assignment]
    if tighten.described:
        torque = _aim(tighten.torque)
        if torque is not None:
            yield _Wanted(" ".join(tighten.fasteners), torque, None)
        return
    for name in tighten.fasteners:
        fastener = vehicle.fasteners.get(name) if vehicle is not None else None
        torque = _aim(fastener.torque) if fastener is not None else None
        if fastener is not None and torque is not None:
            yield _Wanted(name, torque, fastener.adapter)


def _aim(torque: Limit | None) -> float | None:
    """The torque that is aimed at: the nominal value, else the middle."""
    if torque is None:
        return None
    if torque.nominal is not None:
        return float(torque.nominal.si)
    ends = [float(end.si) for end in (torque.low, torque.high) if end is not None]
    return sum(ends) / len(ends) if ends else None


def _fault(
    at: Path, wanted: _Wanted, in_hand: list[Setting], others: list[Setting], workshop: Workshop, is_named: bool
) -> Fault:
    first = in_hand[0]
    see = tuple(Spot(workshop.file, ("instruments", one.wrench.id), "the wrench", key=True) for one in in_hand[:2])
    if others:
        help_ = f"write `tools: {others[0].wrench.id}`"
    else:
        help_ = "no wrench of the workshop file covers it: add the one that does, or check the torque"
    if first.setting is None:
        return _not_computed(at, wanted, first, see)
    span = f"{first.lowest:g} N·m to {first.highest:g} N·m"
    text = f"`{first.wrench.id}` would be set to {newton_metres(first.setting)}; its range is {span}"
    if len(in_hand) > 1 or not is_named:
        text = f"no torque wrench of the workshop covers {newton_metres(wanted.torque)}"
    because = None
    if first.is_corrected and wanted.adapter is not None:
        because = f"{newton_metres(wanted.torque)} at the nut, with an adapter of {wanted.adapter.length}"
    return Fault(at, text, because, help_, see=see)


def _not_computed(at: Path, wanted: _Wanted, first: Setting, see: tuple[Spot, ...]) -> Fault:
    """With an adapter, and a length that is missing or leads nowhere."""
    text = f"what `{first.wrench.id}` has to be set to for `{wanted.name}` cannot be computed"
    if first.wrench.length is not None:
        return Fault(at, text, "wrench and adapter together reach no further than nothing", "mend the adapter", see=see)
    because = "with an adapter the setting hangs on the length of the wrench, which the workshop file does not state"
    return Fault(at, text, because, f"write `length: …` at `{first.wrench.id}`", see=see)
