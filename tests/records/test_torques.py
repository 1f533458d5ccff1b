"""Torques of a record against those of the fasteners."""

import pytest
from bayleaf.loading.load import load
from bayleaf.manual import load_manual
from bayleaf.records.surroundings import Surroundings, surroundings_of
from bayleaf.records.torques import tightened
from kit import PLACES, TODAY, VEHICLE, write_manual
from record_kit import GOOD, JOB, changed


@pytest.fixture(scope="module")
def around(tmp_path_factory: pytest.TempPathFactory) -> Surroundings:
    """The small job, which tightens two kinds of fasteners: one with a tolerance, one without."""
    job = changed(JOB, "    tighten: heater-bracket\n", "    tighten: [heater-bracket, inverter-terminals]\n")
    loose = "  - id: sticker\n    tighten: The screw of the sticker\n    torque: 3 N·m\n"
    files: dict[str, str | bytes] = {
        PLACES["procedure"]: changed(job, "  - id: clean\n", f"{loose}  - id: clean\n"),
        PLACES["vehicle"]: changed(VEHICLE, "size: M6, torque: 6 N·m", "size: M6, torque: 6 N·m ± 1 N·m"),
        PLACES["record"]: GOOD,
    }
    manual = load_manual(write_manual(tmp_path_factory.mktemp("manual"), files), TODAY)
    return surroundings_of(manual.records["2026-0001"], manual.procedures, manual.vehicles["test-van"], manual.workshop)


@pytest.mark.parametrize(
    ("text", "taken", "fastener", "outside"),
    [
        ("step: bracket, torque: 20 N·m", (), "heater-bracket", False),
        # no tolerance: the wrench of the step may be off by 4 %, so from 19.2 to 20.8 N·m
        ("step: bracket, torque: 20.8 N·m", (), "heater-bracket", False),
        ("step: bracket, torque: 19.2 N·m", (), "heater-bracket", False),
        ("step: bracket, torque: 20.9 N·m", (), "heater-bracket", True),
        ("step: bracket, torque: 19.1 N·m", (), "heater-bracket", True),
        # the screwdriver that the record names is good to 6 %
        ("step: bracket, torque: 21 N·m, instrument: torque-screwdriver", (), "heater-bracket", False),
        # the tolerance of the fastener, both ends included
        ("step: bracket, torque: 7 N·m", (), "inverter-terminals", False),
        ("step: bracket, torque: 5 N·m", (0,), "inverter-terminals", False),
        ("step: bracket, torque: 7.1 N·m", (0,), "inverter-terminals", True),
        ("step: bracket, torque: 20 N·m", (0,), "inverter-terminals", True),  # the bracket has had its torque
        ("step: bracket, torque: 20 N·m", (0, 1), "heater-bracket", False),  # both had: tightened once more
        ("step: bracket, torque: 14.75 lbf·ft", (), "heater-bracket", False),  # 20.0 N·m
        # words instead of a name: the torque of the step; no wrench is named, 6 % for one of this size
        ("step: sticker, torque: 3.18 N·m", (), "The screw of the sticker", False),
        ("step: sticker, torque: 3.19 N·m", (), "The screw of the sticker", True),
        ("step: clean, torque: 20 N·m", (), None, False),
        ("step: gone, torque: 20 N·m", (), None, False),
    ],
)  # fmt: skip
def test_a_torque(around: Surroundings, text: str, taken: tuple[int, ...], fastener: str | None, outside: bool) -> None:
    """For which fastener it was, and whether it is what that asks for."""
    (entry,) = load("records/x.yml", f"entries:\n  - {{{text}}}\n".encode(), "record").model.entries
    found = tightened(entry, around.names.get(entry.step[0]), taken, around)

    assert (fastener, outside) == (found.allowed.name if found.allowed else None, found.is_outside(entry))
