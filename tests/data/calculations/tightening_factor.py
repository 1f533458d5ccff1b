"""Scatter of the preload by the way of tightening."""

from data.row import Row

_EXTRACT = "fastener maker's extract of VDI 2230:1986"
_EXAMPLE = "fastener supplier's worked example, M12 8.8, friction 0.14"

ROWS = (
    Row("scatter", (1.4,), 0.167, _EXTRACT + ": ± 17 %", "restated", 0.0005),
    Row("scatter", (1.6,), 0.231, _EXTRACT + ": ± 23 %", "restated", 0.0005),
    Row("scatter", (1.8,), 0.286, _EXTRACT + ": ± 28 %", "restated", 0.0005),
    Row("scatter", (2.0,), 0.333, "supplier's table, ± 33 %", "restated", 0.0005),
    Row("scatter", (1.2,), 0.09, _EXTRACT + ": ± 9 %", "restated", 0.001),
    Row("scatter", (1.7,), 0.26, _EXTRACT + ": ± 26 %", "restated", 0.001),
    Row("scatter", (2.5,), 0.429, _EXTRACT + ": ± 43 %", "restated", 0.0005),
    Row("scatter", (4.0,), 0.60, "catalogue after VDI 2230:2001: ± 60 %", "restated", 0.0005),
    Row("scatter", (1.1,), 0.05, _EXTRACT + ": ± 5 %", "restated", 0.005),
    Row("scatter", (1.3,), 0.12, _EXTRACT + ": ± 12 %", "restated", 0.015),
    Row("factor_of_scatter", (0.35,), 2.077, "NASA-STD-5020B, table 3: dry torque wrench ± 35 %", "restated", 0.001),
    Row("factor_of_scatter", (0.25,), 1.667, "NASA-STD-5020B, table 3: lubricated ± 25 %", "restated", 0.001),
    Row("factor_of_scatter", (0.10,), 1.222, "NASA-STD-5020B, table 3: elongation ± 10 %", "restated", 0.001),
    Row("lowest_preload", (41.9, 1.8), 23.3, _EXAMPLE, "restated", share=0.005),
)
