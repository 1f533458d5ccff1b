"""Energies that are not electrical: which cannot be read, which the key does not make safe, which wake nothing."""

from ..model.vehicle import Circuit

#: Energies that cannot be read with an instrument: nothing has to be read before they are touched.
UNREADABLE = frozenset({"pyrotechnic", "gravity", "rotation"})
#: What feeds a squib for as long as nothing is disconnected: the key alone takes neither off.
_LASTING = ("battery", "external")


def leaves_mode(circuit: Circuit) -> bool:
    """Whether the vehicle stays as it is while a circuit is made live: a pump of the workshop brings pressure up."""
    return circuit.energy == "pressure"


def needs_parting(circuit: Circuit, source: str) -> bool:
    """Whether a source of another energy has to be parted: a squib is not safe because the key is out."""
    return circuit.energy == "pyrotechnic" and source in _LASTING
