"""Readings of a record judged anew: by the limits in the record, with the error of the instrument and the guard band."""

from fractions import Fraction

import pytest
from bayleaf.limits.reading import judge_reading
from bayleaf.loading.load import load
from bayleaf.manual import load_manual
from bayleaf.model.record import Entry
from bayleaf.quantities.quantity import parse_quantity
from bayleaf.records.readings import Weighed, weigh
from bayleaf.records.surroundings import Surroundings, surroundings_of
from bayleaf.records.words import size, width
from hypothesis import given
from hypothesis import strategies as st
from kit import PLACES, TODAY, WORKSHOP, write_manual
from record_kit import GOOD, JOB, changed

READ = """\
  - id: gauge
    read: Pressure in the heater
    quantity: pressure
    limits: at most 1.5 bar
    source: workshop practice
    outcomes: {above: coil-bad, not_decided: coil-bad}
  - id: rest
    discharge: traction
    with: The tester's own discharge
    between: [X1/1 cable, X1/2 cable]
    using: voltage-tester
    limits: at most 5 V
    source: workshop practice
    outcomes: {above: coil-bad, not_decided: coil-bad}
"""


@pytest.fixture(scope="module")
def around(tmp_path_factory: pytest.TempPathFactory) -> Surroundings:
    """The small job with a step that reads a gauge, and a guard band of 1.2 in the policy."""
    files: dict[str, str | bytes] = {
        PLACES["procedure"]: changed(JOB, "  - id: heater-on\n", f"{READ}  - id: heater-on\n"),
        PLACES["record"]: GOOD,
        PLACES["workshop"]: WORKSHOP + "policy: {guard_band: 1.2, dead_below: 4 V}\n",
    }
    manual = load_manual(write_manual(tmp_path_factory.mktemp("manual"), files), TODAY)
    return surroundings_of(manual.records["2026-0001"], manual.procedures, manual.vehicles["test-van"], manual.workshop)


def entry(text: str) -> Entry:
    """One entry of a record, as it is read from the file."""
    (found,) = load("records/x.yml", f"entries:\n  - {{{text}}}\n".encode(), "record").model.entries
    return found


def weighed(text: str, around: Surroundings) -> Weighed:
    one = entry(text)
    return weigh(one, around.names.get("/".join(one.step)), (), around)


@pytest.mark.parametrize(
    ("text", "verdict", "error"),
    [
        # 0.9 % + 2 digits of 0.1 Ω at 150 Ω: 1.35 + 0.2
        ("step: one, reading: 150 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter", "within", "1.55"),
        # at 101 Ω: 0.909 + 0.2 = 1.109, more than the 1 Ω to the limit
        ("step: one, reading: 101 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter", "not decided", "1.109"),
        ("step: one, reading: 98 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter", "below", "1.082"),
        ("step: one, reading: 205 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter", "above", "2.045"),
        # without an instrument the reading is taken as it is
        ("step: one, reading: 100 Ω, limits: 100 Ω to 200 Ω", "within", None),
        ("step: one, reading: 100 Ω, limits: 100 Ω to 200 Ω, instrument: unheard-of", "within", None),
        # the snapshot decides, not the file
        ("step: one, reading: 300 Ω, limits: 250 Ω to 400 Ω, instrument: multimeter", "within", "2.9"),
        # 2 % + 3 digits of 0.1 V; a minus makes a proof no better
        ("step: isolate/8, reading: 0.4 V, limits: at most 5 V, instrument: voltage-tester", "dead", "0.308"),
        ("step: isolate/8, reading: -0.4 V, limits: at most 5 V, instrument: voltage-tester", "dead", "0.308"),
        ("step: isolate/8, reading: 4.8 V, limits: at most 5 V, instrument: voltage-tester", "not decided", "0.396"),
        ("step: isolate/8, reading: -48 V, limits: at most 5 V, instrument: voltage-tester", "not dead", "1.26"),
        # what is left after a discharge: the sign counts only where the limit reaches below zero
        ("step: rest, reading: -0.4 V, limits: at most 5 V, instrument: voltage-tester", "within", "0.308"),
        ("step: rest, reading: -8 V, limits: at most 5 V, instrument: voltage-tester", "above", "0.46"),
        ("step: rest, reading: -8 V, limits: -5 V to 5 V, instrument: voltage-tester", "below", "0.46"),
        ("step: rest, reading: 8 V, limits: -5 V to 5 V, instrument: voltage-tester", "above", "0.46"),
        # a gauge of the vehicle has no error here, whatever instrument is named
        ("step: gauge, reading: 1.5 bar, limits: at most 1.5 bar, instrument: multimeter", "within", None),
        # a step that is not known: the first function of the instrument that shows the quantity
        ("step: gone, reading: 150 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter", "within", "1.55"),
        ("step: gone, reading: 0.4 V, limits: at most 5 V, instrument: voltage-tester, verdict: dead", "dead", "0.308"),
        # no limits in the record: those of the file
        ("step: one, reading: 98 Ω, instrument: multimeter", "below", "1.082"),
        ("step: gone, reading: 98 Ω, instrument: multimeter", None, None),
    ],
)  # fmt: skip
def test_a_verdict_and_its_error(around: Surroundings, text: str, verdict: str | None, error: str | None) -> None:
    """The verdict in the words of a record; the error worked out by hand from the workshop file."""
    found = weighed(text, around)

    assert (verdict, None if error is None else Fraction(error)) == (found.verdict, found.error)


def test_the_guard_band_of_the_policy_widens_the_band(around: Surroundings) -> None:
    """1.2 times the expanded uncertainty: 1.2 · 2/√3 · 1.55 Ω."""
    found = weighed("step: one, reading: 150 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter", around)

    assert found.band is not None
    assert pytest.approx(1.2 * 2 / 3**0.5 * 1.55, rel=1e-5) == float(found.band)


@pytest.mark.parametrize(
    ("limits", "shown", "verdict"),
    [
        ("at least 5 MΩ", "within", "within"),  # the leads were looked at: that is what this verdict says
        ("at least 5 MΩ", "no reading", "no reading"),
        ("at least 5 MΩ", "above", "within"),
        ("1 MΩ to 5 MΩ", "within", "above"),
        ("1 MΩ to 5 MΩ", "above", "above"),
        ("at most 5 V", "within", "above"),
        ("at most 5 V", "dead", "no reading"),
        ("at most 5 V", "not dead", "not dead"),
    ],
)
def test_an_overload_is_within_only_on_a_limit_open_upwards(
    around: Surroundings, limits: str, shown: str, verdict: str
) -> None:
    """And above any other; both only where somebody has looked that the leads hold."""
    found = weighed(f"step: gone, reading: no reading, limits: {limits}, verdict: {shown}", around)

    assert verdict == found.verdict
    assert (shown != verdict) == found.differs


@given(st.integers(0, 3000), st.sampled_from(["100 Ω to 200 Ω", "at least 150 Ω", "at most 80 Ω"]))
def test_it_is_the_verdict_of_the_page(around: Surroundings, tenths: int, limits: str) -> None:
    """Whatever is read: the rule that the page uses, on the ranges of the step, gives the same."""
    one = entry(f"step: one, reading: {tenths / 10} Ω, limits: {limits}, instrument: multimeter")
    ranges = around.workshop.instruments["multimeter"].functions["resistance"]
    assert one.limits is not None
    page = judge_reading(f"{tenths / 10} Ω", one.limits, ranges, around.workshop.policy.guard_band)

    found = weigh(one, around.names["one"], (), around)

    assert page.judgement.exit == (found.verdict or "").replace(" ", "_")  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("size_", "like", "words"),
    [
        (Fraction("0.396"), "4.8 V", "0.4 V"),
        (Fraction("0.311"), "4.8 V", "0.32 V"),  # never less than it is
        (Fraction(12345), "1 Ω", "12345 Ω"),
        (Fraction(43000), "0.41 MΩ", "0.043 MΩ"),
        (Fraction("1.2"), "20 °C", "1.2 K"),
    ],
)
def test_an_error_in_words(size_: Fraction, like: str, words: str) -> None:
    """Two figures, rounded up, in the unit of the reading."""
    assert words == width(size_, parse_quantity(like))  # type: ignore[arg-type]


def test_a_size_in_words() -> None:
    """Five figures, in the unit that is asked for."""
    assert ["1.2346 MΩ", "27 °C", "-1.6667 V"] == [
        size(Fraction(1234567), "MΩ"), size(Fraction("300.15"), "°C"), size(Fraction(-5, 3), "V"),
    ]  # fmt: skip
