"""The short form of the tightening torque."""

from data.row import Row

_PAGE = "fastener maker's engineering page, ranges measured"
_BLOG = "engineering blog: 3/8-16 UNC, grade 5, 75 % of its proof load, 4940 lbf"
LBF = 4.4482216152605e-3
LBF_FT = 1.3558179483314004

#: Root areas in in² as a table of threads prints them, and the index in lbf·ft for each ksi on them, at K 0.20.
INDEX = (
    (0.5, 0.126, 1.05),
    (0.625, 0.202, 2.10),
    (0.75, 0.302, 3.78),
    (0.875, 0.419, 6.11),
    (1.0, 0.551, 9.18),
)

RANGES = (
    ("steel, dry", 0.18, 0.27),
    ("machine oil", 0.10, 0.26),
    ("cadmium plated", 0.15, 0.19),
    ("phosphate and oil", 0.15, 0.22),
    ("zinc plated", 0.17, 0.35),
    ("zinc flake", 0.16, 0.32),
    ("stainless steel on stainless steel", 0.30, 0.50),
)

#: Single values printed elsewhere: surface of the table whose range has to hold them, K, where.
POINTS = (
    ("zinc plated", 0.20, "textbook of machine design, table 8-15"),
    ("machine oil", 0.18, "the same, lubricated"),
    ("cadmium plated", 0.16, "the same"),
    ("steel, dry", 0.20, "ASME PCC-1, appendix O, clean with little lubrication"),
    ("machine oil", 0.18, "the same, conventional anti-seize, well applied"),
    ("machine oil", 0.15, "the same, high-performance coat; and a distributor's rule, lubricated"),
    ("zinc plated", 0.17, "distributor's rule, zinc"),
    ("steel, dry", 0.20, "distributor's rule, clean"),
)

ROWS = (
    *(Row("factor_range", (surface,), (low, high), _PAGE, "restated") for surface, low, high in RANGES),
    Row("torque_by_nut_factor", (0.20, 9.525, 4940 * LBF), 30.9 * LBF_FT, _BLOG, "restated", share=0.005),
    Row("torque_by_nut_factor", (0.20, 9.525, 4940 * LBF), 30 * LBF_FT, _BLOG + "; chart", "restated", share=0.03),
    Row("torque_by_nut_factor", (0.15, 9.525, 4940 * LBF), 23.2 * LBF_FT, _BLOG, "restated", share=0.005),
    Row("torque_by_nut_factor", (0.15, 9.525, 4940 * LBF), 23 * LBF_FT, _BLOG + "; chart", "restated", share=0.03),
    *(
        Row(
            "torque_by_nut_factor",
            (0.20, inches * 25.4, 1000 * area * LBF),
            index * LBF_FT,
            "ASME PCC-1, table O-3.2-1, torque index for root areas",
            "restated",
            share=0.005,
        )
        for inches, area, index in INDEX
    ),
    Row("half_scatter", (1.0, 1.8), 0.286, "VDI 2230: 1.8 is ± 28.6 %", "computed", 0.0005),
)
