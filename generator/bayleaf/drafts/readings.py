"""A reading offered at a plug that was pulled: its contacts and its instrument, with the limits still to be said."""

from ..model.contact import Contact
from ..safety.rig import category_of
from . import owned
from .surroundings import Around
from .yaml_text import Data, Remark

#: All readings lead on, so that everything is put back before the question for the finding.
_OUTCOMES = "outcomes: {within: next, below: next, above: next, not_decided: next}"


def reading_at(connector: str, around: Around) -> list[Data]:
    """A resistance between the first two contacts of the unit; nothing where a current through them does harm.

    An ohmmeter sends a current of its own. Nobody may put one to an igniter (common practice), so every circuit of the
    plug and of the parts that have it must be known, and none of them may hold energy that is set free at once. After
    the isolation of a 48 V supply a few volts may be left, which falsify a resistance: none is offered there.
    """
    pins = list(around.vehicle.connectors[connector].pins)
    meter = owned.ohmmeter(around.workshop)
    if len(pins) < 2 or meter is None or not _takes_a_current(connector, around):
        return []
    remarks = ("TODO: write the limits, take these # away:", "limits: … Ω to … Ω", "source: …", _OUTCOMES)
    return [{
        "id": f"read-{connector.lower()}",
        "measure": "TODO: say what this reading tells, and choose the quantity and the contacts",
        "quantity": "resistance",
        "between": [f"{connector}/{pin} device" for pin in pins[:2]],
        "using": meter,
        **{Remark(text): "" for text in remarks},
    }]  # fmt: skip


def _takes_a_current(connector: str, around: Around) -> bool:
    rig, vehicle = around.rig, around.vehicle
    pins = vehicle.connectors[connector].pins
    found = [circuit for pin in pins for circuit in rig.circuits_at(Contact(connector, pin, "device"))]
    parts = [part for part in vehicle.parts.values() if connector in part.connectors]
    found += [circuit for part in parts for circuit in (*part.circuits, *part.exposes)]
    known = [vehicle.circuits[name] for name in found if name in vehicle.circuits]
    return bool(known) and all(one.energy != "pyrotechnic" and category_of(one) != "power" for one in known)
