"""Something is left off, open, loose or fitted at an end.

## Why it matters

A plug that is forgotten, a bracket that is only finger-tight or a bridge that stays in leave the workshop with the vehicle. What
is meant to stay off at an end is said with `stays_off`. A clamp that is reconnected is only pressed on: where the profile names
its own fastener (`point:`), that is tightened behind it.

A cap or an adapter is followed where it is fitted with `fit_temporary`. One that is only named under `tools` counts as a
tool: nothing is proved by it, and it is not asked for. A cap on an open plug needs no more than that, since the plug does not
go back with the cap on it, and the plug is asked for. What can be forgotten unseen is fitted: a bridge, an adapter, a stopper.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - unplug: X210 # <- `X210` is unplugged in step 2 and may be left so at the end
```

```yaml fails procedure
steps:
  - loosen: heater-bracket # <- `heater-bracket` is loosened in step 1 and may be left so at the end
```

```yaml fails procedure
steps:
  - set: {mode: off}
  - unplug: X210
  - fit_temporary: break-out # <- `break-out` is fitted in step 3 and may be left so at the end
    at: X210
  - plug: X210
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - unplug: X210
    do: Put a cap on both halves.
    tools: terminal caps
  - plug: X210
```

```yaml passes procedure
steps:
  - set: {mode: off}
  - unplug: X210
stays_off: X210
```

## Source

Common practice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...model import actions
from ...model.procedure import Procedure
from ...safety.breaches import Breach, Spot
from ..case import Case
from ..fault import Fault
from ..fault import Spot as Place
from ._tell import fault_of, join_words, of_kind, step_words

KIND = "practice"
SEVERITY = "error"
NEEDS_WALK = True

_DONE: dict[type, str] = {
    actions.Unplug: "unplugged",
    actions.Remove: "taken off",
    actions.Loosen: "loosened",
    actions.Disconnect: "disconnected",
    actions.Reconnect: "put on loose",
    actions.FitTemporary: "fitted",
    actions.Perform: "taken out of its place",
}


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What is not put back on some path, told once where it was taken off: all that one step leaves so at the same ends."""
    told: dict[object, list[Breach]] = {}
    for breach in of_kind(case, "left"):
        told.setdefault((breach.spots[-1].step.at, breach.ends, breach.variant), []).append(breach)
    for together in told.values():
        breach, spot = together[0], together[0].spots[-1]
        names = list(dict.fromkeys(one.demand.name for one in together))
        done = _DONE.get(spot.step.action.__class__, "taken out of its place")
        ends = [f"`{end}`" if end else "the end" for end in breach.ends]
        where = ends[0] if len(ends) == 1 else f"{ends[0]} and {len(ends) - 1} other{'s' * (len(ends) > 2)}"
        are = f"{join_words(names)} {'is' if len(names) == 1 else 'are'}"
        done = done if len(names) == 1 else done.replace("its", "their")
        message = f"{are} {done} in {step_words(spot)} and may be left so at {where}"
        off = names[0] if len(names) == 1 else f"[{', '.join(names)}]"
        if isinstance(spot.step.action, actions.FitTemporary):
            help_ = f"take {_them(names)} off before {where}: `remove_temporary: {off}`"
            if spot.step.action.joins is None:  # a bridge never stays
                help_ += f"; or add {join_words(names)} to `stays_off` where a cap or an adapter may stay"
        elif isinstance(spot.step.action, actions.Reconnect):
            help_ = f"tighten {_them(names)} before {where}: `tighten: {off}`"
        else:
            with_ = _way_back(spot, case)
            help_ = f"put {_them(names)} back before {where}{with_}, or add {join_words(names)} to `stays_off`"
        fault = fault_of(breach, case, message, "nobody is told to put it back", help_)
        yield _with_place(fault, spot, names, case)


def _them(names: Sequence[str]) -> str:
    return "it" if len(names) == 1 else "them"


def _way_back(spot: Spot, case: Case) -> str:
    """Where a performed procedure took things off: the return to service that is performed at the end."""
    if not isinstance(spot.step.action, actions.Perform) or case.vehicle is None:
        return ""
    own = [fact for fact in case.facts.values() if fact.folder == case.vehicle.id]
    back = next((fact.id for fact in own if fact.kind == "return to service"), None)
    return f", as `perform: {back}` may do" if back is not None else ""


def _with_place(fault: Fault, spot: Spot, names: Sequence[str], case: Case) -> Fault:
    """With the file in which the step was to be expected: that of a return to service that is performed and lacks it."""
    back = _performed_return(spot, case)
    if back is None:
        return fault
    left = [name for name in names if name not in _put_back(back, case, frozenset())]
    if not left:
        return fault
    steps = " and ".join(f"`{key}: {name}`" for name in left for key in [_KEY.get(_kind(name, case), "refit")])
    help_ = (
        f"`{back.id}` is performed here and does not put {_them(left)} back: add {steps} in {back.file}, "
        f"or put {_them(left)} back here, or add {join_words(left)} to `stays_off`"
    )
    see = Place(back.file, ("steps",), f"no step here puts {join_words(left)} back", key=True)
    return replace(fault, help=help_, see=(*fault.see, see))


_KEY = {"isolation point": "reconnect", "part": "refit", "connector": "plug", "fastener": "tighten"}


def _kind(name: str, case: Case) -> str:
    named = case.named(name)
    return named.kind if named is not None else ""


def _performed_return(spot: Spot, case: Case) -> Procedure | None:
    """The return to service that a procedure performs after another one took things out of their place."""
    if not isinstance(spot.step.action, actions.Perform):
        return None
    for step in spot.procedure.steps:
        if isinstance(step.action, actions.Perform) and step.action.procedure in case.facts:
            performed = case.facts[step.action.procedure]
            if performed.kind == "return to service" and performed.readable:
                return case.procedures.get(performed.id)
    return None


def _put_back(procedure: Procedure, case: Case, above: frozenset[str]) -> set[str]:
    """What a procedure, or one that it performs, puts back at some step."""
    found: set[str] = set()
    for step in procedure.steps:
        action = step.action
        for name, kind in (
            ("points", actions.Reconnect), ("parts", actions.Refit), ("connectors", actions.Plug),
            ("fasteners", actions.Tighten),
        ):  # fmt: skip
            if isinstance(action, kind):
                found.update(getattr(action, name))
        if isinstance(action, actions.Perform) and action.procedure not in above | {procedure.id}:
            inner = case.procedures.get(action.procedure)
            if inner is not None:
                found |= _put_back(inner, case, above | {procedure.id})
    return found
