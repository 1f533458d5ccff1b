"""Values that are computed from readings: their errors together, and what that decides."""

from fractions import Fraction

import pytest
from bayleaf.limits.computed_reading import computed_sharpness
from bayleaf.model.actions import Compute
from bayleaf.model.procedure import Procedure, Step
from instrument_kit import limit, measure, workshop


def computed(formula: str, limits: str, *readings: str | None, using: str = "fine") -> Fraction | None:
    """The error of a value computed from readings with these limits."""
    steps = tuple(
        Step(("steps", index), str(index + 1), f"r{index}", measure(using=using, limit=limit(text) if text else None))
        for index, text in enumerate(readings)
    )
    action = Compute("It", formula, tuple(f"r{index}" for index in range(len(readings))), "voltage", limit(limits))
    found = computed_sharpness(action, Procedure("a.yml", "v", "v/a", "A", "diagnosis", steps=steps), workshop(), None)
    return None if found is None else found.ends[0].error


@pytest.mark.parametrize(
    ("formula", "readings", "error"),
    [
        # 12 V, 0.1 % + 2 digits of 10 mV: 32 mV each, √2 · 32 mV (GUM 5.1.2)
        ("difference", ("at most 12 V", "at most 12 V"), 0.045255),
        # one without limits counts as the largest of the others
        ("difference", ("at most 12 V", None), 0.045255),
        # 7 mV and 32 mV
        ("difference", ("at most 5 V", "at most 12 V"), 0.032757),
        # √3 · 32 mV / 3
        ("average", ("at most 12 V", "at most 12 V", "at most 12 V"), 0.018475),
        # two alike: (1/2)² · √2 · 32 mV
        ("parallel", ("at most 12 V", "at most 12 V"), 0.011314),
    ],
)
def test_errors_together(formula: str, readings: tuple[str | None, ...], error: float) -> None:
    """Independent readings: root of the squares, each with the weight of the formula."""
    found = computed(formula, "at most 1 V", *readings)

    assert found is not None
    assert error == pytest.approx(float(found), abs=1e-6)


@pytest.mark.parametrize(
    ("formula", "readings"),
    [
        ("difference", (None, None)),  # nothing says how large they are
        ("insulation by voltmeter", ("at most 12 V",) * 4),
        ("difference", ("at most 120 V", "at most 12 V")),  # beyond every range
    ],
)
def test_what_is_not_known_is_not_said(formula: str, readings: tuple[str | None, ...]) -> None:
    """No figure rather than a wrong one."""
    assert None is computed(formula, "at most 1 V", *readings)
