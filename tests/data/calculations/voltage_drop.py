"""Voltage drops of circuits."""

from data.row import Row

_PAGES = "page of a vocational training course and an encyclopedic page"
_CLASS_5 = "IEC 60228, class 5, and Ohm's law"

ROWS = (
    Row("usual_drop", ("ground path",), 0.1, _PAGES, "restated"),
    Row("usual_drop", ("feed",), 0.2, _PAGES, "restated"),
    Row("usual_drop", ("switch",), 0.3, _PAGES, "restated"),
    Row("usual_drop", ("connection",), 0.0, _PAGES, "restated"),
    Row("usual_drop", ("starter total",), 0.5, _PAGES, "restated"),
    Row("usual_drop", ("starter feed",), 0.6, "another training page", "restated"),
    Row("usual_drop", ("starter ground",), 0.3, "another training page", "restated"),
    Row("usual_drop", ("charging feed",), 0.5, _PAGES, "restated"),
    Row("usual_drop", ("charging ground",), 0.2, _PAGES, "restated"),
    Row("usual_drop", ("any path",), 1.0, "common practice", "from memory"),
    Row("usual_drop", ("design of a 12 V circuit",), 0.36, "3 % of 12 V, general practice", "from memory"),
    Row(
        "voltage_drop",
        (4.17, 5, 1.5, "one way", "road vehicle"),
        0.265,
        "published example with 12.7 mΩ/m",
        "restated",
        0.001,
    ),
    Row("share_of_supply", (0.264795, 12), 2.21, "the same example", "restated", 0.005),
    Row("voltage_drop", (10, 5, 2.5), 0.399, _CLASS_5, "computed", 0.0005),
    Row("voltage_drop", (10, 5, 2.5, "there and back"), 0.798, _CLASS_5, "computed", 0.0005),
    Row("share_of_supply", (0.798, 12), 6.65, _CLASS_5, "computed", 0.005),
    Row("voltage_drop", (15, 6, 1.5), 1.197, _CLASS_5, "computed", 0.001),
    Row("voltage_drop", (15, 6, 1.5, "one way", "class 5", 60), 1.385, _CLASS_5, "computed", 0.001),
    Row("voltage_drop", (300, 2, 35), 0.332, _CLASS_5, "computed", 0.001),
    Row("area_of_pure_metal", (20, 4, 0.3), 4.60, "ρ·l·I/U with the copper of IEC 60028", "computed", 0.01),
    Row(
        "area_of_pure_metal",
        (20, 4, 0.3, "one way", "pure copper", 60),
        5.32,
        "4.598 mm² times 1.1572",
        "computed",
        0.005,
    ),
    Row("area_of_pure_metal", (20, 4, 0.3, "there and back"), 9.20, "twice 4.60 mm²", "computed", 0.02),
    Row(
        "smallest_area",
        (20, 4, 0.3, "one way", "class 5", 120),
        10,
        "6 mm² loses 0.264 V at 20 °C, 0.368 V at 120 °C",
        "computed",
    ),
    Row(
        "smallest_area",
        (20, 4, 0.3, "one way", "class 5", 20, 2, 0.001),
        10,
        "6 mm² and two joints of 1 mΩ lose 0.304 V",
        "computed",
    ),
    Row("smallest_area", (20, 4, 0.3), 6, "next size above 4.60 mm²", "computed"),
)
