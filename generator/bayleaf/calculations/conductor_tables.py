"""Cross-sections in mm², rising, each with the most resistance at 20 °C that the standard allows, in Ω/km.

Source: IEC 60228:2004, tables 1 to 4, as five references of cable makers restate them alike; sizes below 0.5 mm²:
makers' tables in the manner of DIN VDE 0295 (restated). At 50 mm² class 5 lies below class 2: that is no error. Road
vehicles: ISO 6722-1 and ISO 19642, bare copper, from memory, but for 1.5 mm² (restated); never a default.
"""

#: Solid and stranded copper, classes 1 and 2.
CLASS_2 = (
    (0.5, 36.0), (0.75, 24.5), (1.0, 18.1), (1.5, 12.1), (2.5, 7.41), (4.0, 4.61), (6.0, 3.08), (10.0, 1.83),
    (16.0, 1.15), (25.0, 0.727), (35.0, 0.524), (50.0, 0.387), (70.0, 0.268), (95.0, 0.193), (120.0, 0.153),
)  # fmt: skip

#: Flexible copper, classes 5 and 6, plain.
CLASS_5 = (
    (0.14, 134.0), (0.22, 96.0), (0.25, 76.0), (0.34, 53.0),
    (0.5, 39.0), (0.75, 26.0), (1.0, 19.5), (1.5, 13.3), (2.5, 7.98), (4.0, 4.95), (6.0, 3.30), (10.0, 1.91),
    (16.0, 1.21), (25.0, 0.780), (35.0, 0.554), (50.0, 0.386), (70.0, 0.272), (95.0, 0.206), (120.0, 0.161),
)  # fmt: skip

#: Flexible copper, classes 5 and 6, tinned.
CLASS_5_TINNED = (
    (0.5, 40.1), (0.75, 26.7), (1.0, 20.0), (1.5, 13.7), (2.5, 8.21), (4.0, 5.09), (6.0, 3.39), (10.0, 1.95),
    (16.0, 1.24), (25.0, 0.795), (35.0, 0.565), (50.0, 0.393), (70.0, 0.277), (95.0, 0.210), (120.0, 0.164),
)  # fmt: skip

#: Aluminium, classes 1 and 2.
ALUMINIUM_2 = (
    (10.0, 3.08), (16.0, 1.91), (25.0, 1.20), (35.0, 0.868), (50.0, 0.641), (70.0, 0.443), (95.0, 0.320),
    (120.0, 0.253),
)  # fmt: skip

#: Cables for road vehicles, bare copper. From memory, but for 1.5 mm².
ROAD_VEHICLE = (
    (0.35, 54.4), (0.5, 37.1), (0.75, 24.7), (1.0, 18.5), (1.5, 12.7), (2.0, 9.42), (2.5, 7.60), (3.0, 6.15),
    (4.0, 4.71), (6.0, 3.14), (10.0, 1.82), (16.0, 1.16), (25.0, 0.743), (35.0, 0.527), (50.0, 0.368), (70.0, 0.259),
    (95.0, 0.196), (120.0, 0.153),
)  # fmt: skip

#: The tables by the name that is typed.
KINDS = {
    "class 5": CLASS_5,
    "class 5 tinned": CLASS_5_TINNED,
    "class 2": CLASS_2,
    "aluminium": ALUMINIUM_2,
    "road vehicle": ROAD_VEHICLE,
}
