"""Drafts for a trouble code that tells of a contactor which may be stuck closed."""

from pathlib import Path

import pytest
from drafts_kit import Bench, bare, demo, is_tidy

#: Vehicle, its code for a stuck contactor, and something on its dangerous circuit.
STUCK = (
    ("larkway-m12", "P0AA1", "hv-harness"),
    ("larkway-m12", "P0AA1", "cabin-heater"),
    ("granbrook-t8", "P0AA1", "distribution-box"),
    ("thistledown-v4", "P1E44", "converter-48-12"),
)
KINDS = ("diagnosis", "replacement", "inspection", "isolation")


def _judged(bench: Bench, vehicle: str, code: str, thing: str, kind: str) -> None:
    found = bench.draft(vehicle, kind, thing, codes=(code,))
    assert is_tidy(found)
    wrong = [one for one in bench.findings(found.file, found.text) if one.severity == "error"]
    lacking = [note for note in found.notes if "no cable" in note]
    assert len(lacking) == len(wrong), [one.message for one in wrong]
    for one, note in zip(wrong, lacking, strict=True):
        assert one.rule == "contactor-may-be-stuck" and f"`{note.split()[0]}`" in one.message


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("vehicle", "code", "thing"), STUCK)
def test_the_draft_handles_it(vehicle: str, code: str, thing: str, kind: str) -> None:
    """Behind the isolation of the vehicle. An error is left where the profile names no cable to read at, as is said."""
    _judged(demo(), vehicle, code, thing, kind)


@pytest.mark.parametrize("kind", KINDS)
def test_an_isolation_of_its_own_handles_it_too(tmp_path: Path, kind: str) -> None:
    """The vehicles without any procedure."""
    bench = bare(tmp_path)
    for vehicle, code, thing in STUCK:
        _judged(bench, vehicle, code, thing, kind)


def test_no_current_is_read_before_the_first_point_and_nothing_is_made_live_again() -> None:
    """A current leads away from the vehicle; every end leaves it locked off."""
    text = demo().draft("larkway-m12", "diagnosis", "hv-harness", codes=("P0AA1",)).text

    assert text.index("mode: off") < text.index("around: battery-lead-plus") < text.index("perform: ")
    assert 4 == text.count("limits: 0 A ± 1 A") == text.count("not_decided: current-flows")
    assert "gloves-0" in text.split("around: battery-lead-plus")[1].split("- id:")[0]
    assert "return-to-service" not in text and "end: end" not in text
    assert "pause: vehicle left" in text


def test_without_such_a_code_the_draft_is_as_ever() -> None:
    """No clamp, and a way back."""
    text = demo().draft("larkway-m12", "diagnosis", "hv-harness", codes=("P0AA6",)).text

    assert "0 A" not in text and "return-to-service" in text
