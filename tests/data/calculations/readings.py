"""Values computed from several readings."""

from data.row import Row

_GUM = "JCGM 100:2008 (GUM), 5.1.2"

ROWS = (
    Row("difference", ((12.65, 12.41),), 0.24, "arithmetic", "computed"),
    Row(
        "difference_uncertainty",
        ((0.0479, 0.0479),),
        0.0677,
        "two readings of 12.6 V, each ± (0.5 % + 2 digits), without correlation; " + _GUM,
        "computed",
        5e-5,
    ),
    Row("difference_worst_case", ((0.083, 0.083),), 0.166, "both errors of that meter against each other", "computed"),
    Row("parallel", ((120, 120),), 60, "two terminating resistors", "restated"),
    Row("parallel", ((120, 120, 120),), 40, "three of them", "computed"),
    Row("parallel", ((120, 120, 30e3),), 59.88, "two of them and a node of 30 kΩ", "computed", 0.005),
    Row("average", ((59.8, 60.1, 60.0, 59.9),), 59.95, "arithmetic", "computed"),
    Row("deviation_of_average", ((59.8, 60.1, 60.0, 59.9),), 0.0645497, "s/√n, s² = 0.05/3", "computed", 1e-7),
)
