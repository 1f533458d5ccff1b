"""Which circuits a step asks to be safe, and which of them can be made safe by what the profile knows."""

from collections.abc import Iterable, Sequence
from math import inf

from ..loading.load import load
from ..model import actions
from ..model.common import MODE_OFF
from ..model.procedure import Procedure, Step
from ..safety.demands import demands_of
from ..safety.other_energies import UNREADABLE
from ..safety.rig import Known, Rig
from .surroundings import Around
from .yaml_text import Data, yaml_text


def read_steps(steps: Sequence[Data], folder: str) -> tuple[Step, ...]:
    """Steps as the checker reads them."""
    file = f"procedures/{folder}/draft.yml"
    frame: Data = {"format": "1", "id": f"{folder}/draft", "title": "Draft", "kind": "repair", "steps": list(steps)}
    model: Procedure = load(file, yaml_text(file, frame, "procedure").encode(), "procedure").model
    return model.steps


def asked_safe(steps: Sequence[Data], around: Around) -> tuple[str, ...]:
    """The circuits that some of these steps ask to be dead, or read as safe, in the order in which they are met."""
    if not steps:
        return ()
    read = read_steps(steps, around.folder)
    rig = Rig(around.vehicle, [one.action for one in read if isinstance(one.action, actions.FitTemporary)])
    found = (demand for step in read for demand in demands_of(step, rig) if demand.kind != "made live")
    return tuple(dict.fromkeys(demand.circuit for demand in found))


def why_never_safe(name: str, around: Around) -> str | None:
    """Why nothing in the profile makes a circuit safe to touch; None where it can be made safe."""
    known = around.rig.known(name)
    called = known.circuit.name
    if not known.circuit.sources:
        return f"the profile does not say what feeds “{called}”"
    for source, ways in zip((one for one in known.circuit.sources if one.kind != "none"), known.ways, strict=False):
        if source.kind == "never":
            return f"nothing in the profile takes its {source.called or source.name} off “{called}”"
        if not ways:
            return f"the profile has no isolation point that surely takes {source.called or source.name} off “{called}”"
        if known.asks_lock and not any(_can_be_locked(way, around) for way in source.taken_off_by):
            return f"nothing that takes {source.called or source.name} off “{called}” can be secured"
    return _why_not_proved(known)


def _can_be_locked(way: tuple[str, ...], around: Around) -> bool:
    points = [around.vehicle.isolation_points.get(name) for name in way]
    return all(point is not None and point.secure_with is not None for point in points)


def _why_not_proved(known: Known) -> str | None:
    called = known.circuit.name
    if known.enough == inf:
        return f"the profile does not say how long “{called}” stays charged"
    if known.pairs_complete:
        return None
    if known.is_dangerous:
        return f"the profile does not say between which contacts “{called}” is proved dead"
    return f"the profile does not say when “{called}” is safe to touch"


def needs_isolation(names: Iterable[str], around: Around) -> tuple[str, ...]:
    """Of these circuits those that are isolated.

    They are dangerous by their voltage, gas, moving with nothing to be read, or fed by more than switching off ends.
    """
    known = (around.rig.known(name) for name in names)
    return tuple(
        one.id
        for one in known
        if one.is_dangerous or one.circuit.is_gas or one.circuit.energy in UNREADABLE or _stays_fed_when_off(one)
    )


def _stays_fed_when_off(known: Known) -> bool:
    """Whether what is read as safe is still fed by some source once the vehicle is switched off."""
    sources = (one for one in known.circuit.sources if one.kind == "points")
    return bool(known.circuit.safe) and any((MODE_OFF,) not in one.taken_off_by for one in sources)
