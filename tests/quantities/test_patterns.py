"""The patterns of the schema: looser than the parsers, never stricter, alike in every engine."""

import re

import jsonschema_rs
import pytest
from bayleaf.quantities import UNITS, schema_pattern
from bayleaf.quantities.units import spellings

SPELLINGS = [spelling for unit in UNITS.values() for spelling in spellings(unit)]
VALUES = [f"12.5{blank}{spelling}" for spelling in SPELLINGS for blank in ("", " ")]
MORE_VALUES = (
    ["-5 V", "− 5 V", "+5 V", "0,5 V", "1 1/2 in", '3/8"', "3⁄8 in", "12\u202f000\u00a0km", "300 1/min"]
    + [" 5 V\n", "5 ℃"]
)  # fmt: skip
LIMITS = (
    ["11.5 V to 14.8 V", "11.5 to 14.8 V", "at least 500 kΩ", "At most −5 °C", "−10 to −5 °C"]
    + ["60 Ω ± 5 %", "60 Ω +- 3 Ω", "60±3 Ω", "49 V +1 V −3 V", "49 V +20 %/−10 %", "10 +0.1/-0.2 mm"]
)  # fmt: skip
NO_VALUES = ["", "V", "five V", "5", "12.5", "-5", "1 1/2", "~5 V"]
NO_LIMITS = ["", "5 V", "at least", "at least V", "at most 5", "to 5 V", "11.5 to 14.8", "60 Ω", "V to V"]


def accepts(pattern: str, text: str) -> tuple[bool, bool]:
    """Whether Python's engine and that of the validator accept the text."""
    validator = jsonschema_rs.validator_for({"type": "string", "pattern": pattern})
    return re.search(pattern, text) is not None, validator.is_valid(text)


@pytest.mark.parametrize(
    ("kind", "texts", "wanted"),
    [
        ("quantity", VALUES + MORE_VALUES, True),
        ("quantity", NO_VALUES, False),
        ("limit", LIMITS, True),
        ("limit", NO_LIMITS, False),
    ],
)
def test_patterns_tell_values_and_limits(kind, texts, wanted) -> None:
    """A number and something that can begin a unit; two values, or one behind its word."""
    pattern = schema_pattern(kind)
    assert [text for text in texts if accepts(pattern, text) != (wanted, wanted)] == []


@pytest.mark.parametrize("kind", ["quantity", "limit"])
def test_patterns_keep_to_what_all_engines_share(kind) -> None:
    """No shorthand classes, no look-around, no named groups."""
    assert not re.search(r"\\[dDwWsSpPbB]|\(\?", schema_pattern(kind))
