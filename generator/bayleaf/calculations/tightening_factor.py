"""Scatter of the preload: how far it goes by the way of tightening.

    α_A = F_max / F_min          ± = (α_A − 1) / (α_A + 1)

    F_max, F_min  highest and lowest preload of bolts that are tightened alike

Valid for the same bolt, surface and tool; the lower value of a range for short turns, smooth surfaces and a tool that
is checked, the higher one for the rest.

Source: VDI 2230:1986, as an extract of a fastener maker prints it; supplier's table after VDI 2230:2001.
"""

from .checked import above_zero, known
from .formula import Formula, Input, Output

_EXTRACT = "fastener maker's extract of VDI 2230:1986"
#: Lowest and highest α_A; where it is printed; how sure that is.
METHODS = {
    "yield or angle": (1.1, 1.3, _EXTRACT, "restated"),
    "hydraulic": (1.2, 1.6, _EXTRACT, "restated"),
    "torque found on real bolts": (1.4, 1.6, _EXTRACT, "restated"),
    "torque from estimated friction": (1.6, 2.0, "the extract ends at 1.8, a supplier's table at 2.0", "restated"),
    "preset power driver": (1.7, 2.5, _EXTRACT, "restated"),
    "impact driver": (2.5, 4.0, "VDI 2230; a catalogue prints ±60 %, which is the upper value", "from memory"),
}


def scatter(factor: float) -> float:
    """The share above and below the middle: (α − 1) / (α + 1)."""
    if not factor >= 1:
        raise ValueError("the highest preload is not below the lowest: the factor is 1 or more")
    return (factor - 1) / (factor + 1)


def factor_of_scatter(share: float) -> float:
    """α from a scatter of ± `share`: (1 + s) / (1 − s)."""
    if not 0 <= share < 1:
        raise ValueError("a scatter lies from 0 to below 100 %")
    return (1 + share) / (1 - share)


def lowest_preload(highest: float, factor: float) -> float:
    """F_min = F_max / α_A."""
    above_zero("preload", highest)
    if not factor >= 1:
        raise ValueError("the highest preload is not below the lowest: the factor is 1 or more")
    return highest / factor


def _scattered(method: str, highest: float) -> tuple[float, float, float, str]:
    known("way of tightening", method, list(METHODS))
    low, high, source, certainty = METHODS[method]
    printed = f"{low:.1f} to {high:.1f}, {certainty}: {source}"
    return lowest_preload(highest, high), lowest_preload(highest, low), 100 * scatter(high), printed


FORMULAS = (
    Formula(
        "tightening factor",
        "Lowest preload by the way of tightening",
        (
            Input("method", "Way of tightening", choices=tuple(METHODS)),
            Input("highest", "Highest preload", "kN"),
        ),
        (
            Output("Lowest preload, at worst", "kN"),
            Output("Lowest preload, at best", "kN"),
            Output("Scatter above and below, at worst", "%"),
            Output("Tightening factor"),
        ),
        _scattered,
        "F_min = F_max / α_A",
        "Same bolt, surface and tool.",
        "VDI 2230:1986 and 2001, as restated by fastener makers",
        {"method": "torque from estimated friction", "highest": "41.9 kN"},
    ),
)
