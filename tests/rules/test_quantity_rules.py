"""The rules about numbers, units and limits: where they are asked for, and that one mistake gives one error."""

import pytest
from bayleaf.diagnostics.finding import Finding
from kit import BASES, PLACES, check, completed

READ = "steps:\n  - read: Value\n    source: workshop practice\n"


def findings(tmp_path, text: str, kind: str = "procedure") -> list[Finding]:
    """What is told about one file of the small manual."""
    return list(check(tmp_path, {PLACES[kind]: completed(text, BASES[kind])}).findings)


@pytest.mark.parametrize(
    ("kind", "text", "line", "rule", "message"),
    [
        ("procedure", "time: 90\n", 1, "unit-missing", "`90` has no unit"),
        ("procedure", "steps:\n  - wait: 5 m\n", 2, "unit-of-another-quantity",
         "`5 m` is a length, but a time is expected"),
        ("procedure", "steps:\n  - do: Look.\n    on: nothing\n    time: 1.000 min\n", 4, "number-ambiguous",
         "`1.000` can be read in two ways"),
        ("procedure", "steps:\n  - turn: driven wheels\n    speed: 60 V\n", 3, "unit-of-another-quantity",
         "`60 V` is a voltage, but a rotational speed is expected"),
        ("procedure", READ + "    quantity: resistance\n    limits: at most 50 mohm\n", 5, "unit-ambiguous",
         "`50 mohm` can mean milliohm or megohm"),
        ("procedure", READ + "    quantity: temperature\n    limits: at least -300 °C\n", 5, "limit-impossible",
         "`at least -300 °C` is impossible"),
        ("procedure", READ + "    quantity: voltage\n    limits: {at_least: 14 V, at_most: 11 V}\n", 5,
         "limit-reversed", "`14 V to 11 V` runs from high to low"),
        ("procedure", READ + "    quantity: voltage\n    limits: {nominal: 12 V}\n", 5, "limit-unreadable",
         "`12 V` alone sets no limit"),
        ("procedure", READ + "    quantity: voltage\n    limits: {at_least: 11 ohm}\n", 5,
         "unit-of-another-quantity", "`11 ohm` is a resistance, but a voltage is expected"),
        ("vehicle", "fasteners:\n  heater-bracket: {torque: 20 J}\n", 2, "unit-of-another-quantity",
         "`20 J` is an energy, but a torque is expected"),
        ("workshop", "policy: {dead_below: 5}\n", 1, "unit-missing", "`5` has no unit"),
        ("workshop", "proving_units:\n  proving-unit: {name: Box, voltage: 690 VDC}\n", 2, "unit-unknown",
         "`VDC` is not a unit that can be written here"),
        ("record", "odometer: 84210 km/h\n", 1, "unit-of-another-quantity",
         "`84210 km/h` is a speed, but a length is expected"),
    ],
)  # fmt: skip
def test_values_are_read_wherever_they_stand(tmp_path, kind, text, line, rule, message) -> None:
    """One error under the smallest part that is wrong; the quantity follows from the key."""
    found = [finding for finding in findings(tmp_path, text, kind) if finding.place.file == PLACES[kind]]

    assert [(line, rule, message)] == [(f.place.line, f.rule, f.message) for f in found]


@pytest.mark.parametrize(
    ("value", "columns", "help_"),
    [
        ("5", (11, 12), "write the unit after it, such as `5 min` or `5 s`"),
        ("5 minits", (13, 19), "did you mean `5 min` (minute) or `5 months` (month)?"),
        ("five minutes", (11, 23), "write a number in digits, then its unit"),
        ("1,000 s", (11, 16), "write `1 s` if the comma stands before decimals, `1000 s` if it parts thousands"),
        ('"5 m"', (14, 15), "write `5 min`"),
    ],
)
def test_the_smallest_part_is_marked_and_the_help_can_be_copied(tmp_path, value, columns, help_) -> None:
    """Columns count from 1; the end is the first one behind."""
    found = findings(tmp_path, f"steps:\n  - wait: {value}\n")

    assert [(columns, help_)] == [((f.place.column, f.place.end_column), f.help) for f in found]


def test_limits_that_cannot_be_read_are_not_limits_that_are_missing(tmp_path) -> None:
    """Nothing is said about their source or their exits."""
    text = "steps:\n  - read: U\n    quantity: voltage\n    limits: 12 V\n    outcomes: {below: stop, above: stop}\n"

    assert ["limit-unreadable"] == [finding.rule for finding in findings(tmp_path, text)]
