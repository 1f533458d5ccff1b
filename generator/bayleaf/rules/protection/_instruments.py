"""What an instrument can stand and show."""

import re
from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.workshop import Instrument
from ...quantities.quantity import Quantity, parse_quantity
from ..case import Case
from ._gloves import workshop_of
from ._steps import Reading, readings

#: `CAT III 1000 V`, `CAT III 1000 V / CAT IV 600 V`, `600 V CAT III`.
_CATEGORY = re.compile(r"\bCAT\s*(?:IV|III|II)\b", re.IGNORECASE)
_VOLTS = re.compile(r"[0-9]+(?:[.][0-9]+)?\s*k?V\b", re.IGNORECASE)
_VOLTAGE_FUNCTIONS = ("dc voltage", "ac voltage")


def category_voltage(instrument: Instrument) -> Quantity | None:
    """The highest voltage that the measuring category names; None where it cannot be told."""
    text = instrument.category or ""
    volts = _VOLTS.findall(text) if _CATEGORY.search(text) else ()
    found = [parse_quantity(one, "voltage") for one in volts]
    return max((one for one in found if isinstance(one, Quantity)), default=None)


def has_figures(instrument: Instrument) -> bool:
    """Whether it shows a voltage in figures."""
    return any(one.top is not None for name in _VOLTAGE_FUNCTIONS for one in instrument.functions.get(name, ()))


def instrument_readings(procedure: Procedure, case: Case) -> Iterator[tuple[Reading, Instrument]]:
    """The readings at class B and 48 V power whose instrument is known."""
    workshop = workshop_of(case)
    if case.vehicle is not None and workshop is not None:
        for reading in readings(procedure, case.vehicle):
            instrument = workshop.instruments.get(reading.using)
            if instrument is not None:
                yield reading, instrument
