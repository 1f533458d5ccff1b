"""Resistance of cables: the tables, the metals, the gauges."""

from data.row import Row

_IEC_60228 = "IEC 60228:2004, tables 1 to 4, five references of cable makers alike"
_ROAD = "ISO 6722-1, ISO 19642, bare copper"

#: mm²; copper class 1 and 2, class 5 and 6 plain, class 5 and 6 tinned, aluminium class 1 and 2, in Ω/km
_TABLE = (
    (0.5, 36.0, 39.0, 40.1, None),
    (0.75, 24.5, 26.0, 26.7, None),
    (1, 18.1, 19.5, 20.0, None),
    (1.5, 12.1, 13.3, 13.7, None),
    (2.5, 7.41, 7.98, 8.21, None),
    (4, 4.61, 4.95, 5.09, None),
    (6, 3.08, 3.30, 3.39, None),
    (10, 1.83, 1.91, 1.95, 3.08),
    (16, 1.15, 1.21, 1.24, 1.91),
    (25, 0.727, 0.780, 0.795, 1.20),
    (35, 0.524, 0.554, 0.565, 0.868),
    (50, 0.387, 0.386, 0.393, 0.641),
    (70, 0.268, 0.272, 0.277, 0.443),
    (95, 0.193, 0.206, 0.210, 0.320),
    (120, 0.153, 0.161, 0.164, 0.253),
)
_COLUMNS = ((1, "class 2"), (2, "class 5"), (3, "class 5 tinned"), (4, "aluminium"))
_SMALL = ((0.14, 134), (0.22, 96), (0.25, 76), (0.34, 53))
_ROAD_VEHICLE = (
    (0.35, 54.4), (0.5, 37.1), (0.75, 24.7), (1, 18.5), (2, 9.42), (2.5, 7.60), (3, 6.15), (4, 4.71), (6, 3.14),
    (10, 1.82), (16, 1.16), (25, 0.743), (35, 0.527), (50, 0.368), (70, 0.259), (95, 0.196), (120, 0.153),
)  # fmt: skip
#: AWG, mm, mm², Ω/km
_GAUGES = (
    ("4/0", 11.6840, 107.219, 0.1608), ("2/0", 9.2658, 67.431, 0.2557), ("1/0", 8.2515, 53.475, 0.3224),
    ("2", 6.5437, 33.631, 0.5127), ("4", 5.1894, 21.151, 0.8152), ("6", 4.1154, 13.302, 1.2961),
    ("8", 3.2636, 8.3656, 2.0609), ("10", 2.5882, 5.2612, 3.2770), ("12", 2.0525, 3.3088, 5.2107),
    ("14", 1.6277, 2.0809, 8.2853), ("16", 1.2908, 1.3087, 13.174), ("18", 1.0237, 0.8230, 20.948),
    ("20", 0.8118, 0.5176, 33.308), ("22", 0.6438, 0.3255, 52.962), ("24", 0.5106, 0.2047, 84.213),
    ("26", 0.4049, 0.1288, 133.90),
)  # fmt: skip
_PRINTED_GAUGES = (("10", 3.28, 0.005), ("18", 20.94, 0.01), ("20", 33.29, 0.02), ("24", 84.20, 0.02))
_COPPER_FACTORS = ((-40, 0.7642), (0, 0.9214), (40, 1.0786), (60, 1.1572), (85, 1.2555), (105, 1.3341), (125, 1.4127))
_TO_20 = ((10, 1.042), (15, 1.020), (25, 0.980), (30, 0.962), (40, 0.926), (50, 0.893), (70, 0.833), (90, 0.781))

ROWS = (
    *(
        Row("ohms_per_km", (row[0], kind), row[column], _IEC_60228, "restated")
        for row in _TABLE
        for column, kind in _COLUMNS
        if row[column] is not None
    ),
    *(
        Row("ohms_per_km", (area, "class 5"), ohms, "tables of makers in the manner of DIN VDE 0295", "restated")
        for area, ohms in _SMALL
    ),
    *(Row("ohms_per_km", (area, "road vehicle"), ohms, _ROAD, "from memory") for area, ohms in _ROAD_VEHICLE),
    Row("ohms_per_km", (1.5, "road vehicle"), 12.7, _ROAD, "restated"),
    Row("worst_ratio", ("class 5", 2.5), 1.157, "highest of table times area, over 17.241", "computed", 0.0005),
    Row("resistivity", ("pure copper",), 0.0172414, "IEC 60028:1925, 1/58 (handbook)", "restated", 5e-8),
    Row("resistivity", ("pure aluminium",), 0.028264, "IEC 60889", "restated"),
    *(
        Row("temperature_factor", (celsius, "pure copper"), factor, "1 + 0.00393·(t − 20)", "computed", 1e-4)
        for celsius, factor in _COPPER_FACTORS
    ),
    Row("temperature_factor", (21, "pure copper"), 1.00393, "handbook citing IEC 60028", "restated"),
    Row("temperature_factor", (21, "pure aluminium"), 1.00403, "handbook, commercial purity", "restated"),
    *(
        Row("factor_to_20", (celsius,), factor, "IEC 60228, table of a cable maker", "restated", 5e-4)
        for celsius, factor in _TO_20
    ),
    *(Row("gauge_diameter", (row[0],), row[1], "ASTM B258, formula", "computed", share=5e-4) for row in _GAUGES),
    *(Row("gauge_area", (row[0],), row[2], "ASTM B258, formula", "computed", share=5e-4) for row in _GAUGES),
    *(Row("gauge_ohms_per_km", (row[0],), row[3], "17.241/A", "computed", share=5e-4) for row in _GAUGES),
    *(
        Row("gauge_ohms_per_km", (gauge,), ohms, "published table", "restated", within)
        for gauge, ohms, within in _PRINTED_GAUGES
    ),
    Row("gauge_diameter", ("4/0",), 11.684, "published table; 0.46 in by definition", "restated", 1e-9),
    Row("gauge_diameter", ("36",), 0.1270, "published table; 0.005 in by definition", "restated", 1e-12),
    Row("next_size", (4.60,), 6, "sizes of IEC 60228", "restated"),
)
