"""Platinum sensors and thermistors."""

from data.row import Row

_IEC = "IEC 60751:2008, constants as four references restate them"
_BETA = "law of the thermistor"

_PT100 = (
    (-200, 18.5201), (-50, 80.3063), (-40, 84.2707), (-20, 92.1599), (0, 100.0), (10, 103.9025), (20, 107.7935),
    (25, 109.7347), (50, 119.3971), (60, 123.2419), (80, 130.8968), (85, 132.8033), (100, 138.5055), (120, 146.0680),
    (200, 175.8560), (300, 212.0515), (400, 247.0920), (600, 313.7080), (850, 390.4811),
)  # fmt: skip
_PRINTED = ((-200, 18.52), (-160, 35.54), (100, 138.51), (200, 175.86), (400, 247.09), (600, 313.71))
#: °C; ohms for β of 3435 K, 3950 K, 3977 K, with 10 kΩ at 25 °C
_NTC = (
    (-40, 248277, 401860, 412135),
    (-20, 77522, 105385, 107095),
    (0, 28704, 33621, 33900),
    (20, 12171, 12535, 12555),
    (25, 10000, 10000, 10000),
    (40, 5758.8, 5301.5, 5278.5),
    (60, 2980.9, 2486.2, 2462.6),
    (85, 1451.3, 1086.7, 1070.3),
    (100, 987.0, 697.5, 684.9),
    (120, 618.0, 407.1, 398.3),
)

ROWS = (
    *(Row("pt_resistance", (celsius,), ohms, _IEC, "computed", 1e-4) for celsius, ohms in _PT100),
    *(Row("pt_resistance", (celsius, "Pt1000"), 10 * ohms, _IEC, "computed", 1e-3) for celsius, ohms in _PT100),
    *(Row("pt_resistance", (celsius,), ohms, "published table", "restated", 0.0051) for celsius, ohms in _PRINTED),
    *(Row("pt_temperature", (ohms,), celsius, _IEC, "computed", 0.001) for celsius, ohms in _PT100),
    Row("pt_temperature", (119.40,), 50.0075, _IEC, "computed", 0.001),
    Row("pt_temperature", (150,), 130.447, _IEC, "computed", 0.001),
    Row("pt_tolerance", (0, "B"), 0.30, _IEC, "restated"),
    Row("pt_tolerance", (100, "B"), 0.80, _IEC, "restated"),
    Row("pt_tolerance", (100, "A"), 0.35, _IEC, "restated"),
    Row("pt_tolerance", (-100, "A"), 0.35, _IEC, "computed"),
    Row("pt_tolerance_ohms", (0, "B"), 0.117, _IEC, "restated", 0.0005),
    Row("pt_tolerance_ohms", (100, "B"), 0.303, _IEC, "restated", 0.0005),
    *(
        Row("ntc_resistance", (row[0], 10e3, beta), row[column], _BETA, "computed", share=1e-3)
        for row in _NTC
        for column, beta in ((1, 3435), (2, 3950), (3, 3977))
    ),
    Row("ntc_beta", (10e3, 25, 1451, 85), 3435.4, "ln(R25/R85) / (1/298.15 − 1/358.15)", "restated", 0.05),
    Row("ntc_temperature", (3000, 10e3, 3435), 59.793, _BETA, "computed", 0.001),
)
