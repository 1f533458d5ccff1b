"""Insulation resistance: what is asked of a high-voltage bus, how it is tested, how it is computed.

    R ≥ k · U                                  k   ohms per volt, by the kind of bus      Ω/V
    Ri = Ro · Vb · (1 / V' − 1 / V)            U   working voltage                        V
    reading ≥ R / (1 − p / 100)                p   accuracy of the tester, of the reading   %

    Vb  pole to pole, V1 negative pole to chassis, V2 positive pole to chassis
    V   the higher of V1 and V2,  V' the same reading with the known resistor Ro between that pole and the chassis

The voltmeter method is live work: battery connected. Its formula gives the smaller of the two resistances from pole
to chassis, not the two in parallel, and neither the resistance of the voltmeter nor the choice of Ro changes the
result, as long as one meter takes all readings. A test for fixed installations (0.5 MΩ, 1 MΩ) is no limit for a
vehicle.

Source: UN R100, 5.1.3 (limits) and annexes 4A and 5A (voltmeter and megohmmeter, read in a national clone of the
text); ISO 6469-3:2011, 8.2.2 (test voltage, read in the Australian edition of 2014); IEC 61557-2:2019, 6 (±30 %, read
in excerpt).
"""

from .checked import above_zero, known, not_negative
from .formula import Formula, Input, Output

#: Ohms per volt of working voltage. A dc bus for itself; an ac bus; dc and ac joined without isolation between them;
#: the same where every ac bus has double insulation or is mechanically protected. Source: UN R100, 5.1.3.1 and
#: 5.1.3.2 (read).
OHMS_PER_VOLT = {"dc": 100.0, "ac": 500.0, "joined": 500.0, "joined and protected": 100.0}

#: The least test voltage as a share of the highest working voltage. Source: ISO 6469-3:2011, 8.2.2; UN R100, annex 5A
#: (read).
TEST_SHARES = {"ISO 6469-3": 1.0, "UN R100": 0.5}

#: Test voltages that insulation testers offer: those up to 1000 V nearly every one, the others large ones. Common
#: practice.
TESTER_VOLTAGES = (50.0, 100.0, 250.0, 500.0, 1000.0, 1500.0, 2500.0)

#: How much of the reading an insulation tester may be wrong, in per cent. Source: IEC 61557-2:2019, 6 (read in
#: excerpt).
TESTER_ACCURACY = 30.0


def ohms_per_volt(bus: str) -> float:
    """Ohms per volt that a kind of bus has to have: a key of `OHMS_PER_VOLT`."""
    known("bus", bus, list(OHMS_PER_VOLT))
    return OHMS_PER_VOLT[bus]


def least_resistance(volts: float, bus: str) -> float:
    """The least insulation resistance, in ohms, at a working voltage: k·U, whatever the voltage; UN R100, 5.1.3."""
    above_zero("working voltage", volts)
    return ohms_per_volt(bus) * volts


def current_at_limit(bus: str) -> float:
    """Amperes that flow to the chassis at the limit: 1/k. The same at every voltage: 10 mA or 2 mA."""
    return 1 / ohms_per_volt(bus)


def known_resistors(volts: float, bus: str) -> tuple[float, float]:
    """Ohms from and to for the resistor Ro of the voltmeter method: k·U ± 20 %. Any other is valid as well; UN R100."""
    ohms = least_resistance(volts, bus)
    return 0.8 * ohms, 1.2 * ohms


def weaker_of(positive: float, negative: float) -> float:
    """The insulation resistance of a bus by UN R100: the smaller of the resistances from its poles to the chassis."""
    not_negative("resistance of the positive pole", positive)
    not_negative("resistance of the negative pole", negative)
    return min(positive, negative)


def readings_fit(vb: float, v1: float, v2: float, accuracy: float = 0.0) -> bool:
    """Whether V1 + V2 ≤ Vb, which the circuit demands; a voltmeter in it lowers the sum, nothing raises it.

    `accuracy` in per cent of the reading: the sum may then exceed Vb by the share (1 + p/100) / (1 − p/100).
    """
    if not 0 <= accuracy < 100:
        raise ValueError(f"accuracy is {accuracy:g} %; it has to be 0 % or more and below 100 %")
    rounding = 1 + 1e-9
    return v1 + v2 <= vb * rounding * (100 + accuracy) / (100 - accuracy)


def by_voltmeter(vb: float, v1: float, v2: float, loaded: float, known_ohms: float, accuracy: float = 0.5) -> float:
    """Ohms of insulation by the voltmeter method, UN R100, annex 4A: Ro·Vb·(1/V' − 1/V), V the higher of V1 and V2.

    `loaded` is the higher of the two read again with `known_ohms` at the pole that it was read at. Refuses readings
    that no circuit can give: V1 + V2 above Vb by more than the `accuracy` of the meter (per cent of the reading)
    explains, or a reading that rises or stays as the resistor is added.
    """
    above_zero("voltage from pole to pole", vb)
    not_negative("voltage from the negative pole to the chassis", v1)
    not_negative("voltage from the positive pole to the chassis", v2)
    above_zero("known resistor", known_ohms)
    higher = max(v1, v2)
    if higher == 0:
        raise ValueError("no voltage from either pole to the chassis; the method needs a reading of one of them")
    if not readings_fit(vb, v1, v2, accuracy):
        raise ValueError(
            f"V1 and V2 together are {v1 + v2:g} V, more than the {vb:g} V from pole to pole; the readings do not fit"
        )
    above_zero("voltage with the resistor", loaded)
    if loaded == higher and higher < vb * (1 - accuracy / 100):
        raise ValueError(f"{loaded:g} V with the resistor and without it: the resistor was not connected")
    if loaded > higher:
        raise ValueError(
            f"{loaded:g} V with the resistor is more than {higher:g} V without it; "
            "it belongs between the chassis and the pole with the higher reading"
        )
    return known_ohms * vb * (1 / loaded - 1 / higher)


def weaker_pole(v1: float, v2: float) -> str:
    """Which pole has the lower resistance to the chassis: the one that reads less against it."""
    if v1 == v2:
        return "both alike"
    return "positive pole" if v1 > v2 else "negative pole"


def least_test_voltage(volts: float, rule: str) -> float:
    """The least voltage of an insulation test, in volts: the highest working voltage, or half of it by UN R100."""
    above_zero("working voltage", volts)
    known("rule", rule, list(TEST_SHARES))
    return TEST_SHARES[rule] * volts


def tester_voltage(least: float) -> float:
    """The lowest usual voltage of a tester, in volts, that is not below `least`."""
    above_zero("test voltage", least)
    enough = [one for one in TESTER_VOLTAGES if one >= least]
    if len(enough) == 0:
        raise ValueError(f"no usual tester gives {least:g} V; the highest is {max(TESTER_VOLTAGES):g} V")
    return min(enough)


def reading_needed(limit: float, accuracy: float) -> float:
    """The least reading, in ohms, whose true value is surely not below a limit: limit / (1 − p/100)."""
    above_zero("limit", limit)
    if not 0 <= accuracy < 100:
        raise ValueError(f"accuracy is {accuracy:g} %; it has to be 0 % or more and below 100 %")
    return limit / (1 - accuracy / 100)


def _limit(volts: float, bus: str, accuracy: float) -> tuple[float, float, float, float]:
    least = least_resistance(volts, bus)
    return least, reading_needed(least, accuracy), ohms_per_volt(bus), current_at_limit(bus)


def _by_voltmeter(
    vb: float, v1: float, v2: float, loaded: float, known_ohms: float, accuracy: float
) -> tuple[float, float, str]:
    ohms = by_voltmeter(vb, v1, v2, loaded, known_ohms, accuracy)
    return ohms, ohms / vb, weaker_pole(v1, v2)


def _test_voltage(volts: float, rule: str) -> tuple[float, float]:
    least = least_test_voltage(volts, rule)
    return least, tester_voltage(least)


FORMULAS = (
    Formula(
        "insulation limit",
        "Least insulation resistance of a high-voltage bus",
        (
            Input("U", "Working voltage, the highest", "V"),
            Input("bus", "Kind of bus", choices=tuple(OHMS_PER_VOLT)),
            Input("accuracy", "Accuracy of the tester, of the reading", "%", f"{TESTER_ACCURACY:g} %"),
        ),
        (
            Output("Insulation resistance, at least", "Ω"),
            Output("A tester of this accuracy has to show, at least", "Ω"),
            Output("Per volt", "Ω/V"),
            Output("Current to the chassis at the limit", "A"),
        ),
        _limit,
        "R = k · U;  reading ≥ R / (1 − p / 100)",
        "Buses that are insulated from the chassis. There is no other figure above 500 V. The maker may ask for more.",
        "UN R100, 5.1.3; IEC 61557-2:2019, 6",
        {"U": "400 V", "bus": "ac"},
    ),
    Formula(
        "insulation by voltmeter",
        "Insulation resistance by the voltmeter method",
        (
            Input("Vb", "Voltage from pole to pole", "V"),
            Input("V1", "Voltage from the negative pole to the chassis", "V"),
            Input("V2", "Voltage from the positive pole to the chassis", "V"),
            Input("Vo", "The higher of the two again, with the known resistor at that pole", "V"),
            Input("Ro", "Known resistor", "Ω"),
            Input("accuracy", "Accuracy of the voltmeter, of the reading", "%", "0.5 %"),
        ),
        (
            Output("Insulation resistance", "Ω"),
            Output("Per volt from pole to pole", "Ω/V"),
            Output("Lower resistance to the chassis at the"),
        ),
        _by_voltmeter,
        "Ri = Ro · Vb · (1 / V′ − 1 / V)",
        "Live work. One voltmeter of 10 MΩ or more for all readings; battery connected; gives the weaker pole.",
        "UN R100, annex 4A",
        {"Vb": "400 V", "V1": "372.1 V", "V2": "27.9 V", "Vo": "219.2 V", "Ro": "200 kΩ"},
    ),
    Formula(
        "insulation test voltage",
        "Voltage of an insulation test",
        (
            Input("U", "Working voltage, the highest", "V"),
            Input("rule", "Rule", default="ISO 6469-3", choices=tuple(TEST_SHARES)),
        ),
        (Output("Test voltage, at least", "V"), Output("Next usual voltage of a tester", "V")),
        _test_voltage,
        "Utest ≥ U (ISO 6469-3);  Utest ≥ U / 2 (UN R100)",
        "Battery disconnected. What cannot stand the voltage by its maker's word is tested apart.",
        "ISO 6469-3:2011, 8.2.2; UN R100, annex 5A; voltages of testers: common practice",
        {"U": "400 V"},
    ),
)
