"""The supply voltage at which a component has to work.

    12 V: codes A (6 V to 16 V), B (from 8 V), C (from 9 V), D (from 10.5 V)
    24 V: codes E (10 V to 32 V), F (from 16 V), G (from 22 V), H (from 18 V)
    48 V: 36 V to 52 V without limit of time

The nominal voltage of the circuit in the profile tells the system; the maker of a component tells its `code`. It is the
range in which it works, not the one in which the supply of a running vehicle should lie, which is narrower.

Source: ISO 16750-2:2012, tables 1 and 2 (from memory); 48 V: VDA 450 (2023), in line with ISO 21780:2020.
"""

from ...calculations.supply_range import RANGES, certainty_of_range, supply_range
from ...model.cited import Computed
from ...quantities.figures import figure
from ..asked import circuits
from ..limit_rule import Asked, Lack

NAME = "supply range"
FITS = ("voltage",)

_SOURCES = {
    "12 V": "ISO 16750-2:2012, table 1",
    "24 V": "ISO 16750-2:2012, table 2",
    "48 V": "VDA 450, as ISO 21780:2020",
}


def compute(asked: Asked) -> Computed | Lack:
    """Both limits, in volts."""
    found = circuits(asked)
    if isinstance(found, Lack):
        return found
    circuit = found[0]
    nominal = circuit.voltage.nominal if circuit.voltage is not None else None
    system = f"{float(nominal.si):g} V" if nominal is not None else ""
    if system not in _SOURCES:
        text = f"`{circuit.id}` has no nominal voltage of 12 V, 24 V or 48 V"
        return Lack(
            text, "write `nominal: 12 V` under its `voltage`, or leave the rule out", seen=(circuit.at, "the circuit")
        )
    codes = [row[1] for row in RANGES if row[0] == system]
    code = asked.cited.code if system != "48 V" else codes[0]
    if code not in codes:
        return Lack(
            f"a {system} component has a code, {codes[0]} to {codes[-1]}",
            f"write the letter that the maker of the component states, such as `code: {codes[len(codes) // 2]}`",
            "code",
        )
    least, most = supply_range(system, code)
    low, high = figure(least, "V", "up"), figure(most, "V", "down")
    what = f"{system}, code {code}" if system != "48 V" else system
    certainty = certainty_of_range(system, code)
    source = _SOURCES[system] + (", from memory" if certainty == "from memory" else "")
    return Computed(low, high, f"{what}: {low} to {high}", source)
