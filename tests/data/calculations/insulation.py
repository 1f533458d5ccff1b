"""Insulation resistance of high-voltage buses."""

from data.row import Row

_LIMITS = "UN R100, 5.1.3.1 and 5.1.3.2"
_METHOD = "formula of UN R100, annex 4A, on a circuit solved by hand"
_METER = "the same circuit with one voltmeter of 10 MΩ"
_TEST_R100 = "UN R100, annex 5A, megohmmeter method"
_TEST_ISO = "ISO 6469-3:2011, 8.2.2 (text of the Australian edition of 2014)"
_TESTER = "IEC 61557-2:2019, 6 (excerpt)"

#: Vb, V1, V2, V' with the resistor, Ro; ohms, and where from. Nominal voltage = Vb.
_CIRCUITS = (
    (400, 200.000, 200.000, 57.1429, 200e3, 1_000_000, _METHOD),
    (400, 266.667, 133.333, 100.000, 200e3, 500_000, _METHOD),
    (400, 372.093, 27.907, 219.178, 200e3, 150_000, _METHOD),
    (360, 154.286, 205.714, 35.7025, 180e3, 1_500_000, _METHOD),
    (400, 190.4762, 190.4762, 56.3380, 200e3, 1_000_000, _METER),
    (400, 258.0645, 129.0323, 98.7654, 200e3, 500_000, _METER),
    (400, 355.2398, 42.6288, 280.5049, 200e3, 60_000, _METER),
)

ROWS = (
    Row("ohms_per_volt", ("dc",), 100, _LIMITS, "read"),
    Row("ohms_per_volt", ("ac",), 500, _LIMITS, "read"),
    Row("ohms_per_volt", ("joined",), 500, _LIMITS, "read"),
    Row("ohms_per_volt", ("joined and protected",), 100, _LIMITS, "read"),
    Row("least_resistance", (355, "dc"), 35_500, _LIMITS, "computed"),
    Row("least_resistance", (355, "ac"), 177_500, _LIMITS, "computed"),
    Row("least_resistance", (400, "dc"), 40_000, _LIMITS, "computed"),
    Row("least_resistance", (400, "ac"), 200_000, _LIMITS, "computed"),
    Row("current_at_limit", ("dc",), 0.010, "U/R at the limit", "computed"),
    Row("current_at_limit", ("ac",), 0.002, "U/R at the limit", "computed"),
    Row(
        "known_resistors", (400, "ac"), (160e3, 240e3), "UN R100, annex 4A: asked Ω/V times the voltage, ± 20 %", "read"
    ),
    *(Row("by_voltmeter", given[:5], given[5], given[6], "computed", share=1e-3) for given in _CIRCUITS),
    *(
        Row("weaker_of", given, min(given), "what the method returns on five circuits", "computed")
        for given in ((1e6, 1e6), (500e3, 1e6), (150e3, 2e6), (2e6, 1.5e6), (5e6, 5e6))
    ),
    Row("weaker_pole", (372.093, 27.907), "positive pole", "the circuit with 150 kΩ and 2 MΩ", "computed"),
    Row("weaker_pole", (154.286, 205.714), "negative pole", "the circuit with 2 MΩ and 1.5 MΩ", "computed"),
    Row("weaker_pole", (200.0, 200.0), "both alike", "the circuit with 1 MΩ and 1 MΩ", "computed"),
    Row("least_test_voltage", (400, "UN R100"), 200, _TEST_R100, "read"),
    Row("least_test_voltage", (400, "ISO 6469-3"), 400, _TEST_ISO, "read"),
    Row("least_test_voltage", (800, "UN R100"), 400, _TEST_R100, "read"),
    Row("least_test_voltage", (800, "ISO 6469-3"), 800, _TEST_ISO, "read"),
    Row("tester_voltage", (200,), 250, "400 V by UN R100: the range of 250 V", "computed"),
    Row("tester_voltage", (400,), 500, "400 V by ISO 6469-3, 800 V by UN R100: the range of 500 V", "computed"),
    Row("tester_voltage", (800,), 1000, "800 V by ISO 6469-3: the range of 1000 V", "computed"),
    *(
        Row("tester_voltage", (least,), volts, "ranges of testers, common practice", "from memory")
        for least, volts in ((1, 50), (50, 50), (50.1, 100), (100.1, 250), (1000, 1000), (1000.1, 1500), (1500.1, 2500))
    ),
    Row("reading_needed", (200e3, 30), 285.7e3, _TESTER, "computed", 50),
    Row("reading_needed", (40e3, 30), 57.1e3, _TESTER, "computed", 50),
)
