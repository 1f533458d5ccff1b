"""Torque wrenches: what one has to be set to, whether it may be used there, and how far it may be off.

    T_set = T · L / (L + E · cos θ)            T = T_set · (L + E · cos θ) / L

    T      torque at the nut, N·m      L  length of the wrench to the middle of its grip, mm
    T_set  what the wrench shows       E  length of the adapter, from the square to the nut, mm
                                       θ  angle between wrench and adapter: 0° in line, 90° across, 180° folded back

The range begins at the lowest marked value: 20 % of the maximum was the practice of the edition of 2003. The deviation
that is allowed goes by the maximum of the tool, not by the value it is set to: a wrench from 5 to 60 N·m has ±4 % at
6 N·m too. Range and deviation are those of what the wrench shows, not of the torque at the nut.

Valid for wrenches held at the middle of the grip. Bending-beam wrenches and torque screwdrivers have ±6 % whatever
their maximum (from memory).

Source: ISO 6789:2003 and ISO 6789-1:2017, as tool makers' articles restate them; lever law.
"""

from math import cos, radians

from .checked import above_zero, not_negative
from .formula import Formula, Input, Output

#: Up to this maximum, N·m, a tool may be off by `SMALL` per cent, above it by `LARGE`. Source: ISO 6789 as restated.
SMALL_UP_TO = 10.0
SMALL = 6.0
LARGE = 4.0


def permitted_deviation(maximum: float) -> float:
    """Per cent of the reading by which a tool of this maximum (N·m) may be off, above and below."""
    above_zero("maximum of the tool", maximum)
    return SMALL if maximum <= SMALL_UP_TO else LARGE


def test_points(lowest: float, maximum: float) -> tuple[float, float, float]:
    """Torques, N·m, at which a tool is tested: its lowest marked value, 60 % and 100 % of its maximum."""
    _check_tool(lowest, maximum)
    return lowest, 0.6 * maximum, maximum


def coarsest_step(reading: float, maximum: float) -> float:
    """The coarsest step, N·m, that an electronic tool may show: a quarter of the permitted deviation there."""
    not_negative("reading", reading)
    return reading * permitted_deviation(maximum) / 100 / 4


def setting_for(torque: float, length: float, adapter: float, angle: float) -> float:
    """T_set, N·m, for a torque at the nut, with lengths in mm and the angle in degrees."""
    not_negative("torque", torque)
    return torque / _ratio(length, adapter, angle)


def torque_at_nut(setting: float, length: float, adapter: float, angle: float) -> float:
    """T, N·m, that a wrench gives at the nut when it shows `setting`."""
    not_negative("setting", setting)
    return setting * _ratio(length, adapter, angle)


def in_range(setting: float, lowest: float, maximum: float) -> bool:
    """Whether the tool may be used there: from its lowest marked value to its maximum."""
    _check_tool(lowest, maximum)
    return lowest <= setting <= maximum


def _ratio(length: float, adapter: float, angle: float) -> float:
    """Torque at the nut over what the wrench shows."""
    above_zero("length of the wrench", length)
    not_negative("length of the adapter", adapter)
    if not 0 <= angle <= 180:
        raise ValueError("the adapter stands at 0° to 180° to the wrench")
    reach = length + adapter * cos(radians(angle))
    if not reach > 0:
        raise ValueError("an adapter folded back that is as long as the wrench gives no torque")
    return reach / length


def _check_tool(lowest: float, maximum: float) -> None:
    above_zero("lowest marked value", lowest)
    if not maximum > lowest:
        raise ValueError("the maximum of the tool is not above its lowest marked value")


def _setting(
    torque: float, length: float, adapter: float, angle: float, lowest: float, maximum: float
) -> tuple[float, str, float, float, float]:
    setting = setting_for(torque, length, adapter, angle)
    said = "within the range of the tool"
    if not in_range(setting, lowest, maximum):
        said = "below the lowest marked value" if setting < lowest else "above the maximum"
    off = permitted_deviation(maximum)
    return setting, said, off, torque * (1 - off / 100), torque * (1 + off / 100)


def _at_nut(setting: float, length: float, adapter: float, angle: float) -> tuple[float]:
    return (torque_at_nut(setting, length, adapter, angle),)


def _tool(lowest: float, maximum: float) -> tuple[float, float, float, float]:
    points = test_points(lowest, maximum)
    return permitted_deviation(maximum), points[0], points[1], points[2]


_LENGTH = Input("length", "Length of the wrench to the middle of its grip", "mm")
_ADAPTER = Input("adapter", "Length of the adapter", "mm", "0 mm")
_ANGLE = Input("angle", "Angle between wrench and adapter", "°", "0°")
_LOWEST = Input("lowest", "Lowest marked value of the wrench", "N·m")
_MAXIMUM = Input("maximum", "Maximum of the wrench", "N·m")
_LAW = "T_set = T · L / (L + E · cos θ)"
_VALID = "Held at the middle of the grip. Bending-beam wrenches and screwdrivers: ±6 % throughout (from memory)."
_SOURCE = "Lever law; ISO 6789-1:2017, as tool makers' articles restate it"

FORMULAS = (
    Formula(
        "wrench setting",
        "Setting of a torque wrench",
        (Input("torque", "Torque at the nut", "N·m"), _LENGTH, _ADAPTER, _ANGLE, _LOWEST, _MAXIMUM),
        (
            Output("Setting", "N·m"),
            Output("The setting is"),
            Output("The wrench may be off by", "%"),
            Output("Torque at the nut, from", "N·m"),
            Output("Torque at the nut, to", "N·m"),
        ),
        _setting,
        _LAW,
        _VALID,
        _SOURCE,
        {"torque": "80 N·m", "length": "400 mm", "adapter": "50 mm", "lowest": "20 N·m", "maximum": "100 N·m"},
    ),
    Formula(
        "torque at the nut",
        "Torque at the nut behind an adapter",
        (Input("setting", "What the wrench is set to", "N·m"), _LENGTH, _ADAPTER, _ANGLE),
        (Output("Torque at the nut", "N·m"),),
        _at_nut,
        "T = T_set · (L + E · cos θ) / L",
        _VALID,
        _SOURCE,
        {"setting": "100 N·m", "length": "500 mm", "adapter": "150 mm"},
    ),
    Formula(
        "torque wrench test",
        "Test points of a torque wrench",
        (_LOWEST, _MAXIMUM),
        (
            Output("Permitted deviation, above and below", "%"),
            Output("First point", "N·m"),
            Output("Second point", "N·m"),
            Output("Third point", "N·m"),
        ),
        _tool,
        "lowest marked value, 60 % and 100 % of the maximum",
        "Wrenches. " + _VALID,
        _SOURCE,
        {"lowest": "10 N·m", "maximum": "100 N·m"},
    ),
)
