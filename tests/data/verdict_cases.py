"""Readings and the verdicts on them: the first written by hand, the others made by counting.

The made ones are stated in whole counts of a millionth of the unit, apart from the program: a reading is good if it is
not nearer to an end of the limit than the band, bad if it lies beyond an end by more than the band, else not decided.
"""

from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple


class Case(NamedTuple):
    """A limit in words, the reading (None is an overload) with its unit, and how far the true value may be from it.

    The band counts in the unit of the quantity without prefix; None is none.
    """

    limit: str
    reading: str | None
    unit: str
    band: str | None
    verdict: str
    side: str | None = None


BY_HAND = (
    Case("11.5 V to 14.8 V", "12.6", "V", None, "within"),
    Case("11.5 V to 14.8 V", "11.5", "V", None, "within"),
    Case("11.5 V to 14.8 V", "14.8", "V", None, "within"),
    Case("11.5 V to 14.8 V", "11.49", "V", None, "outside", "below"),
    Case("11.5 V to 14.8 V", "14.81", "V", None, "outside", "above"),
    Case("11.5 V to 14.8 V", "11,5", "V", None, "within"),
    Case("11.5 V to 14.8 V", "11500", "mV", None, "within"),
    Case("11.5 V to 14.8 V", "11499", "mV", None, "outside", "below"),
    Case("11.5 V to 14.8 V", "0.0148", "kV", None, "within"),
    Case("11.5 V to 14.8 V", None, "V", None, "no reading"),
    Case("11.5 V to 14.8 V", None, "V", "0.1", "no reading"),
    # with a band the ends move inward for a pass and outward for a failure
    Case("11.5 V to 14.8 V", "11.6", "V", "0.1", "within"),
    Case("11.5 V to 14.8 V", "11.59", "V", "0.1", "not decided"),
    Case("11.5 V to 14.8 V", "11.4", "V", "0.1", "not decided"),
    Case("11.5 V to 14.8 V", "11.39", "V", "0.1", "outside", "below"),
    Case("11.5 V to 14.8 V", "14.9", "V", "0.1", "not decided"),
    Case("11.5 V to 14.8 V", "14.91", "V", "0.1", "outside", "above"),
    # a sum that is not exact in binary: 0.1 + 0.2 is not above 0.3
    Case("at most 0.3 Ω", "0.1", "Ω", "0.2", "within"),
    Case("at most 0.3 Ω", "300", "mΩ", None, "within"),
    Case("at least 0.3 Ω", "0.1", "Ω", "0.2", "not decided"),
    # a band wider than the limits passes nothing
    Case("60 Ω ± 1 Ω", "60", "Ω", "2", "not decided"),
    Case("60 Ω ± 1 Ω", "59", "Ω", None, "within"),
    Case("60 Ω ± 1 Ω", "58.9", "Ω", None, "outside", "below"),
    # one end only
    Case("at least 500 kΩ", "2", "GΩ", "1000", "within"),
    Case("at least 500 kΩ", None, "MΩ", None, "no reading"),
    Case("at most 50 mV", "-3", "V", "0.001", "within"),
    Case("at most 50 mV", "50.5", "mV", "0.0005", "not decided"),
    Case("-2 mV to 2 mV", "−2.1", "mV", None, "outside", "below"),
    # a scale with a zero of its own
    Case("at most 60 °C", "140", "°F", None, "within"),
    Case("at most 60 °C", "140.1", "°F", None, "outside", "above"),
    # three decimals on a display that has three
    Case("at most 1.2 V", "1.200", "V", None, "within"),
    Case("at most 1.2 V", "1.201", "V", None, "outside", "above"),
)

#: Millionths of the unit in each unit of a quantity.
_COUNTS = {
    "V": {"V": 10**6, "mV": 10**3, "kV": 10**9},
    "Ω": {"Ω": 10**6, "kΩ": 10**9, "MΩ": 10**12, "mΩ": 10**3},
    "A": {"A": 10**6, "mA": 10**3, "µA": 1},
}
#: The limit, its ends in millionths, the band, the last digit of the reading, and the units in which it is read.
_LIMITS = (
    ("V", "11.5 V to 14.8 V", 11_500_000, 14_800_000, 120_000, 10_000, ("V", "mV")),
    ("V", "12.6 V ± 5 %", 11_970_000, 13_230_000, 63_000, 1_000, ("V", "kV")),
    ("V", "12.6 V +0.4 V −0.2 V", 12_400_000, 13_000_000, 37_000, 1_000, ("mV",)),
    ("V", "at most 60 V", None, 60_000_000, 1_500_000, 100_000, ("V", "mV")),
    ("V", "at most 5 V", None, 5_000_000, 90_000, 10_000, ("V", "kV")),
    ("V", "-5 V to -1 V", -5_000_000, -1_000_000, 70_000, 10_000, ("V", "mV")),
    ("V", "-100 mV to 100 mV", -100_000, 100_000, 3_000, 100, ("mV", "V")),
    ("Ω", "at least 500 kΩ", 500_000_000_000, None, 9_000_000_000, 1_000_000_000, ("kΩ", "MΩ")),
    ("Ω", "at most 0.1 Ω", None, 100_000, 4_000, 1_000, ("Ω", "mΩ")),
    ("Ω", "60 Ω ± 1 Ω", 59_000_000, 61_000_000, 300_000, 100_000, ("Ω", "kΩ")),
    ("A", "20 mA to 50 mA", 20_000, 50_000, 700, 10, ("mA", "µA")),
    ("A", "at most 2.5 mA", None, 2_500, 60, 1, ("mA", "µA")),
)


def _made() -> Iterator[Case]:
    """On each end, one digit to both sides, without a band and at both edges of it; and one reading far inside."""
    for base, words, low, high, band, digit, units in _LIMITS:
        middle = (low + high) // 2 if low is not None and high is not None else (low or 0) * 3 + (high or 0) // 3
        for unit in units:
            for margin in (0, band):
                near = [end + shift for end in (low, high) if end is not None for shift in {-margin, 0, margin}]
                counts = {count + step for count in near for step in (-digit, 0, digit)} | {middle}
                for count in sorted(counts):
                    verdict, side = _stated(count, low, high, margin)
                    text = format((Decimal(count) / _COUNTS[base][unit]).normalize(), "f")
                    yield Case(
                        words, text, unit, format(Decimal(margin).scaleb(-6), "f") if margin else None, verdict, side
                    )


def _stated(count: int, low: int | None, high: int | None, margin: int) -> tuple[str, str | None]:
    """The verdict, from the distances to the ends."""
    above_low = None if low is None else count - low
    below_high = None if high is None else high - count
    if all(distance is None or distance >= margin for distance in (above_low, below_high)):
        return "within", None
    if above_low is not None and -above_low > margin:
        return "outside", "below"
    if below_high is not None and -below_high > margin:
        return "outside", "above"
    return "not decided", None


CASES = (*BY_HAND, *_made())
