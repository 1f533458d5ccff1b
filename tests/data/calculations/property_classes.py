"""What bolts of a class hold at least, and the loads that follow."""

from data.row import Row

_CLASS = "ISO 898-1:2013, reproduced by two suppliers"
#: Class, a diameter it holds for, R_m, R_y, S_p in MPa.
STEEL = (
    ("4.6", 8, 400, 240, 225),
    ("4.8", 8, 420, 340, 310),
    ("5.6", 8, 500, 300, 280),
    ("5.8", 8, 520, 420, 380),
    ("6.8", 8, 600, 480, 440),
    ("8.8", 16, 800, 640, 580),
    ("8.8", 18, 830, 660, 600),
    ("9.8", 16, 900, 720, 650),
    ("10.9", 8, 1040, 940, 830),
    ("12.9", 24, 1220, 1100, 970),
)
#: Class, R_m, R_y.
STAINLESS = (
    ("A2-50", 500, 210),
    ("A4-50", 500, 210),
    ("A2-70", 700, 450),
    ("A4-70", 700, 450),
    ("A2-80", 800, 600),
    ("A4-80", 800, 600),
)
PSI = 6894.757293168361e-6
#: Grade, a diameter in inches, S_p, R_y, R_m in psi.
SAE = (
    ("grade 1", 0.25, 33000, 36000, 60000),
    ("grade 1", 1.5, 33000, 36000, 60000),
    ("grade 2", 0.25, 55000, 57000, 74000),
    ("grade 2", 0.75, 55000, 57000, 74000),
    ("grade 2", 0.875, 33000, 36000, 60000),
    ("grade 2", 1.5, 33000, 36000, 60000),
    ("grade 5", 0.25, 85000, 92000, 120000),
    ("grade 5", 1, 85000, 92000, 120000),
    ("grade 5", 1.125, 74000, 81000, 105000),
    ("grade 8", 0.25, 120000, 130000, 150000),
    ("grade 8", 1.5, 120000, 130000, 150000),
)
CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")
#: Proof loads of ISO 898-1, N, coarse thread, by class in the order above; None where the standard has no entry.
PROOF = {
    "M3": (1130, 1560, 1410, 1910, 2210, 2920, 3270, 4180, 4880),
    "M3.5": (1530, 2100, 1900, 2580, 2980, 3940, 4410, 5630, 6580),
    "M4": (1980, 2720, 2460, 3340, 3860, 5100, 5710, 7290, 8520),
    "M5": (3200, 4400, 3980, 5400, 6250, 8230, 9230, 11800, 13800),
    "M6": (4520, 6230, 5630, 7640, 8840, 11600, 13100, 16700, 19500),
    "M7": (6500, 8960, 8090, 11000, 12700, 16800, 18800, 24000, 28000),
    "M8": (8240, 11400, 10200, 13900, 16100, 21200, 23800, 30400, 35500),
    "M10": (13000, 18000, 16200, 22000, 25500, 33700, 37700, 48100, 56300),
    "M12": (19000, 26100, 23600, 32000, 37100, 48900, 54800, 70000, 81800),
    "M14": (25900, 35600, 32200, 43700, 50600, 66700, 74800, 95500, 112000),
    "M16": (35300, 48700, 44000, 59700, 69100, 91000, 102000, 130000, 152000),
    "M18": (43200, 59500, 53800, 73000, 84500, 115000, None, 159000, 186000),
    "M20": (55100, 76000, 68600, 93100, 108000, 147000, None, 203000, 238000),
    "M22": (68200, 93900, 84800, 115000, 133000, 182000, None, 252000, 294000),
    "M24": (79400, 109000, 98800, 134000, 155000, 212000, None, 293000, 342000),
}
#: Minimum ultimate tensile loads, N, likewise. M4 10.9: one copy prints 91 130.
ULTIMATE = {
    "M3": (2010, 2110, 2510, 2620, 3020, 4020, 4530, 5230, 6140),
    "M3.5": (2710, 2850, 3390, 3530, 4070, 5420, 6100, 7050, 8270),
    "M4": (3510, 3690, 4390, 4570, 5270, 7020, 7900, 9130, 10700),
    "M5": (5680, 5960, 7100, 7380, 8520, 11350, 12800, 14800, 17300),
    "M6": (8040, 8440, 10000, 10400, 12100, 16100, 18100, 20900, 24500),
    "M7": (11600, 12100, 14400, 15000, 17300, 23100, 26000, 30100, 35300),
    "M8": (14600, 15400, 18300, 19000, 22000, 29200, 32900, 38100, 44600),
    "M10": (23200, 24400, 29000, 30200, 34800, 46400, 52200, 60300, 70800),
    "M12": (33700, 35400, 42200, 43800, 50600, 67400, 75900, 87700, 103000),
    "M14": (46000, 48300, 57500, 59800, 69000, 92000, 104000, 120000, 140000),
    "M16": (62800, 65900, 78500, 81600, 94000, 125000, 141000, 163000, 192000),
    "M18": (76800, 80600, 96000, 99800, 115000, 159000, None, 200000, 234000),
    "M20": (98000, 103000, 122000, 127000, 147000, 203000, None, 255000, 299000),
    "M22": (121000, 127000, 152000, 158000, 182000, 252000, None, 315000, 370000),
    "M24": (141000, 148000, 176000, 184000, 212000, 293000, None, 367000, 431000),
}
LBF = 4.4482216152605e-3
#: Proof loads, lbf, of grades 2, 5 and 8.
SAE_PROOF = {
    "1/4-20 UNC": (1750, 2705, 3819),
    "1/4-28 UNF": (2001, 3092, 4365),
    "5/16-18 UNC": (2884, 4457, 6292),
    "5/16-24 UNF": (3194, 4936, 6968),
    "3/8-16 UNC": (4262, 6587, 9299),
    "3/8-24 UNF": (4831, 7465, 10539),
    "1/2-13 UNC": (7804, 12061, 17028),
    "1/2-20 UNF": (8797, 13596, 19194),
    "5/8-11 UNC": (12430, 19210, 27120),
    "3/4-10 UNC": (18395, 28429, 40135),
    "1-8 UNC": (19989, 51488, 72689),
}


def _classes() -> list[Row]:
    rows = []
    for name, diameter, strength, limit, proof in STEEL:
        rows += [
            Row("tensile_strength", (name, diameter), strength, _CLASS, "restated"),
            Row("yield_strength", (name, diameter), limit, _CLASS, "restated"),
            Row("proof_stress", (name, diameter), proof, _CLASS, "restated"),
        ]
    for name, strength, limit in STAINLESS:
        source = "ISO 3506-1, reproduced by two suppliers"
        rows += [
            Row("tensile_strength", (name, 8), strength, source, "restated"),
            Row("yield_strength", (name, 8), limit, source, "restated"),
        ]
    for name, inches, proof, limit, strength in SAE:
        given = (name, inches * 25.4)
        source = "SAE J429: summary of standards, university, chart of fasteners"
        rows += [
            Row("tensile_strength", given, strength * PSI, source, "restated"),
            Row("yield_strength", given, limit * PSI, source, "restated"),
            Row("proof_stress", given, proof * PSI, source, "restated"),
        ]
    return rows


def _loads(function: str, table: dict[str, tuple[int | None, ...]]) -> list[Row]:
    """The standard rounds every entry to three figures: the worst is 0.5 % off its own formula."""
    source = "ISO 898-1, copies of two suppliers"
    return [
        Row(function, (size, name), newtons / 1000, source, "restated", share=0.006)
        for size, loads in table.items()
        for name, newtons in zip(CLASSES, loads, strict=True)
        if newtons is not None
    ]


ROWS = (
    *_classes(),
    *_loads("proof_load", PROOF),
    *_loads("breaking_load", ULTIMATE),
    *(
        Row("proof_load", (size, name), pounds * LBF, "stress area times SAE J429", "computed", share=0.005)
        for size, loads in SAE_PROOF.items()
        for name, pounds in zip(("grade 2", "grade 5", "grade 8"), loads, strict=True)
    ),
    Row("read_class", ("property class 10.9",), "10.9", "ISO 898-1, marking", "restated"),
    Row("read_class", ("SAE Grade 8",), "grade 8", "SAE J429, marking", "restated"),
)
