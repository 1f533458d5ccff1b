"""The digest of a procedure: it changes with what is done, and with nothing else."""

import re

import pytest
from bayleaf.manual import Manual
from bayleaf.records.digest import digest_of
from kit import ISOLATION, PLACES, VEHICLE
from record_kit import GOOD, JOB, changed, manual_with

ISOLATE = "procedures/test-van/isolate.yml"
NAMED = {"job": PLACES["procedure"], "isolation": ISOLATE, "vehicle": PLACES["vehicle"]}
TEXTS = {"job": JOB, "isolation": ISOLATION, "vehicle": VEHICLE}


def digest(manual: Manual) -> str:
    return digest_of(manual.procedures["test-van/job"], manual.procedures, manual.vehicles["test-van"])


def both(tmp_path, file: str, old: str, new: str) -> tuple[str, str]:
    """The digest of the job before and after one change."""
    before = manual_with(tmp_path / "before", GOOD)
    after = manual_with(tmp_path / "after", GOOD, **{NAMED[file]: changed(TEXTS[file], old, new)})
    return digest(before), digest(after)


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("job", "limits: at least 60 Ω", "limits: at least 61 Ω"),
        ("job", "using: multimeter\n    limits: 100 Ω to 200 Ω\n    source: workshop practice\n    repeat", "using: insulation-tester\n    limits: 100 Ω to 200 Ω\n    source: workshop practice\n    repeat"),
        ("job", "do: Brush the pins.", "do: Wash the pins."),
        ("job", "answer: dry, then: next", "answer: dry, then: heater-off"),
        ("job", "unplug: [X7, X210]", "unplug: [X210, X7]"),
        ("job", "repeat: at most 1", "repeat: at most 2"),
        ("job", "at_least: 2, who", "at_least: 3, who"),
        ("job", "finding: Both coils are good.", "finding: All coils are good."),
        ("job", "    tools: torque-wrench-small\n", "    tools: torque-wrench-small\n    notice: {hazard: A sharp edge, consequence: It cuts., avoid: Wear gloves.}\n"),
        ("isolation", "wait: 5 min", "wait: 6 min"),  # what is performed counts too
        ("isolation", "limits: at most 5 V", "limits: at most 4 V"),
        ("vehicle", "count: 4, torque: 20 N·m", "count: 4, torque: 21 N·m"),  # a torque that the job tightens to
        ("vehicle", "      - {pair: [X1/1 cable, chassis], access: inverter-cover}\n", ""),  # a test point of its proof
    ],
)  # fmt: skip
def test_what_is_done_changes_it(tmp_path, file: str, old: str, new: str) -> None:
    """Limits, instruments, words, order, exits, messages, people, what is performed, torques, test points."""
    before, after = both(tmp_path, file, old, new)

    assert re.fullmatch("[0-9a-f]{16}", before)
    assert before != after


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("job", "title: Heater stays cold", "title: The heater stays cold"),
        ("job", "limits: at least 60 Ω", "limits: at least 0.06 kΩ"),  # the same size
        ("job", "limits: at least 60 Ω", "limits: {at_least: 60 Ω}"),
        ("job", "do: Brush the pins.", "do: >-\n      Brush\n      the pins."),
        ("job", "  - id: clean\n", "\n  # A remark\n  - id: clean\n"),
        ("job", "why: Both coils are read", "why: Both coils are read now"),
        ("job", "kind: diagnosis\n", "kind: diagnosis\nabout: Two coils.\nsymptoms: [It stays cold]\n"),
        ("job", "    source: workshop practice\n    repeat", "    source: \"maker: data, sheet 1\"\n    repeat"),
        ("vehicle", "name: Ground strap,", "name: Strap to ground,"),
        ("vehicle", "size: M6, torque: 6 N·m", "size: M6, torque: 5 N·m"),  # a fastener that the job leaves alone
    ],
)  # fmt: skip
def test_what_is_only_written_otherwise_does_not(tmp_path, file: str, old: str, new: str) -> None:
    """Titles, sources, remarks, line breaks and units; facts of the profile that the job does not use."""
    before, after = both(tmp_path, file, old, new)

    assert before == after


def test_it_is_the_same_on_every_machine(tmp_path) -> None:
    """A fixed procedure has a fixed digest: it must not change with the program, or records would not agree any more."""
    assert "24fa940b3742f902" == digest(manual_with(tmp_path, GOOD))
