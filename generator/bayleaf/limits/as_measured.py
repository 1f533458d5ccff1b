"""A proof, and what is left after a discharge, as the measurement that it is, so that its instrument is known."""

from ..model import actions
from ..model.vehicle import Vehicle


def as_voltage(action: actions.ProveDead | actions.Discharge, vehicle: Vehicle | None) -> actions.Measure:
    """The voltage that is read: direct or alternating as the step says, else as the circuit is."""
    stated = action.current_kind if isinstance(action, actions.ProveDead) else None
    circuit = vehicle.circuits.get(action.circuit) if vehicle is not None else None
    voltage = circuit.voltage if circuit is not None else None
    return reading("voltage", stated or (voltage.kind if voltage is not None else None))


def reading(quantity: str, kind: str | None = None) -> actions.Measure:
    """A measurement of which nothing is known but what is read."""
    return actions.Measure(
        what="", quantity=quantity, current_kind=kind, pairs=(), around=None, where=(), using=None, take=None,
        read_after=None, test_voltage=None, test_current=None, discharged=None, limit=None,
    )  # fmt: skip
