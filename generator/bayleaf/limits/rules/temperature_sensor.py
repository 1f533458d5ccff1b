"""Resistance of a temperature sensor at a temperature that another thermometer shows.

    platinum   R(t) of IEC 60751, with the tolerance of its class at both ends (class B where none is said)
    NTC        R25·e^(β·(1/T − 1/298.15)), or between the points of the maker's table, with its tolerance

`at` says the temperature, with how far sensor and thermometer may differ: `at: 22 °C ± 3 K`. The sensor stands in the
profile, at its part.

Source: IEC 60751:2008; law of the thermistor (any data sheet of one).
"""

from ...calculations.temperature_sensor import ntc_resistance, ntc_table_resistance, pt_resistance, pt_tolerance_ohms
from ...model.cited import Computed
from ...model.vehicle import Part, Sensor
from ...quantities.figures import figure
from ...quantities.quantity import Quantity
from ..asked import unknown
from ..limit_rule import Asked, Lack

NAME = "temperature sensor"
FITS = ("resistance",)


def compute(asked: Asked) -> Computed | Lack:
    """Both limits, in ohms."""
    part = _part(asked)
    if isinstance(part, Lack):
        return part
    condition = asked.cited.at
    cold = (condition.low or condition.nominal) if condition is not None else None
    warm = (condition.high or condition.nominal) if condition is not None else None
    if cold is None or warm is None or cold.quantity != "temperature":
        return Lack("`at` has to say a temperature", "write `at: 22 °C ± 3 K`", "at")
    assert part.sensor is not None and condition is not None
    try:
        ends = _ends(part.sensor, _celsius(cold), _celsius(warm))
    except ValueError as error:
        return Lack(str(error), "write a temperature at which the sensor is measured in the bay", "at")
    if isinstance(ends, Lack):
        return ends
    least, most, source = ends
    low, high = figure(least, "Ω", "up", 4), figure(most, "Ω", "down", 4)
    if low > high:
        return Lack("the limits have no width", "write how far both may differ: `at: 22 °C ± 3 K`", "at")
    return Computed(low, high, f"{part.sensor.kind} at {condition}: {low} to {high}", source)


def _part(asked: Asked) -> Part | Lack:
    if len(asked.cited.of) != 1:
        return Lack("no sensor is named", "name a part that has a `sensor` in the profile: `of: …`", "of")
    found = asked.vehicle.parts.get(asked.cited.of[0])
    if found is None:
        return unknown(asked.cited.of[0], "part", asked.vehicle.parts)
    if found.sensor is None:
        mend = "write `sensor: {kind: Pt1000, class: B}` at the part in the profile"
        return Lack(f"`{found.id}` has no sensor in the profile", mend, "of", seen=(found.at, "the part"))
    return found


def _ends(sensor: Sensor, cold: float, warm: float) -> tuple[float, float, str] | Lack:
    """Least and most ohms between two temperatures in °C, and the source."""
    if sensor.kind != "NTC":
        accuracy = sensor.accuracy_class or "B"
        least = pt_resistance(cold, sensor.kind) - pt_tolerance_ohms(cold, accuracy, sensor.kind)
        most = pt_resistance(warm, sensor.kind) + pt_tolerance_ohms(warm, accuracy, sensor.kind)
        return least, most, f"IEC 60751, class {accuracy}"
    if sensor.tolerance is None:
        mend = "write `tolerance: 5 %` at the sensor, as its maker says"
        return Lack("the tolerance of the sensor is not in the profile", mend, seen=(sensor.at, "the sensor"))
    share = float(sensor.tolerance.si)
    if not 0 <= share < 1:
        return Lack(
            f"a tolerance of {sensor.tolerance} has no meaning",
            "write that of the maker, such as `tolerance: 5 %`",
            seen=(sensor.at, "the sensor"),
        )
    if sensor.points:
        temperatures = [_celsius(at) for at, _ in sensor.points]
        resistances = [float(ohms.si) for _, ohms in sensor.points]
        least = ntc_table_resistance(warm, temperatures, resistances)
        most = ntc_table_resistance(cold, temperatures, resistances)
        return least * (1 - share), most * (1 + share), "table of the maker, in the profile"
    if sensor.at_25 is None or sensor.beta is None:
        mend = "write `at_25: 10 kΩ` and `beta: 3435 K`, or its `points`"
        return Lack("the figures of the thermistor are not in the profile", mend, seen=(sensor.at, "the sensor"))
    at_25, beta = float(sensor.at_25.si), float(sensor.beta.si)
    return (
        ntc_resistance(warm, at_25, beta) * (1 - share),
        ntc_resistance(cold, at_25, beta) * (1 + share),
        "law of the thermistor, β",
    )


def _celsius(value: Quantity) -> float:
    return float(value.to("°C").value)
