"""A profile is changed: what is kept of its procedures is what judging everything anew would give."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from shutil import copytree

import pytest
import yaml
from bayleaf.manual import ManualKeeper, load_manual
from bayleaf.manual_profiles import Profiles, Views
from bayleaf.safety.breaches import Court
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from kit import PLACES, PROCEDURE, TODAY, VEHICLE, write_manual
from test_keeper import DEMO, JOB, PAGE, told
from test_keeper import NOTES as PAGE_TEXT
from thinned import IS_CAMPAIGN
from yaml.nodes import MappingNode, Node, ScalarNode

PROFILE = PLACES["vehicle"]

#: A job that touches what the profile has, with steps that are wrong: so that names of the profile stand in findings.
WORK = (
    PROCEDURE
    + """\
  - measure: Insulation of the heater
    quantity: insulation resistance
    between: [X7/1 cable, chassis]
    test_voltage: 500 V
    limits: at least 5 MOhm
  - perform: test-van/isolate
  - remove: cabin-heater
  - refit: cabin-heater
  - loosen: heater-bracket
  - tighten: heater-bracket
  - measure: Ground of the heater
    quantity: resistance
    between: [X210/1 cable, chassis]
    limits: at most 1 Ohm
  - unplug: X7
"""
)


class Entry:
    """A key and its value in the text of a profile, in block style: from the key to what follows."""

    def __init__(self, path: tuple[str, ...], key: Node, value: Node) -> None:
        self.path, self.key, self.value = path, key, value
        self.first, self.last = key.start_mark.line, value.end_mark.line
        if value.end_mark.column or self.last == self.first:
            self.last += 1

    def lines(self, text: list[str]) -> list[str]:
        """Its lines."""
        return text[self.first : self.last]


def _entries(node: Node, path: tuple[str, ...] = ()) -> Iterator[Entry]:
    if isinstance(node, MappingNode) and not node.flow_style:
        for key, value in node.value:
            here = (*path, key.value)
            yield Entry(here, key, value)
            yield from _entries(value, here)


def _scalars(node: Node, key: str = "") -> Iterator[tuple[str, ScalarNode]]:
    if isinstance(node, ScalarNode):
        yield key, node
    elif isinstance(node, MappingNode):
        for one, value in node.value:
            yield from _scalars(value, one.value)
    else:
        for value in node.value:
            yield from _scalars(value, key)


def _with(text: str, node: Node, new: str) -> str:
    return text[: node.start_mark.index] + new + text[node.end_mark.index :]


def _another_value(text: str, root: Node, random: Random) -> str:
    """A value that stands under the same key elsewhere, or with other digits, or with a letter more."""
    scalars = list(_scalars(root))
    key, node = random.choice(scalars)
    same = [other.value for name, other in scalars if name == key]
    value = node.value
    return _with(text, node, random.choice((random.choice(same), f"{value}x", re.sub(r"\d", "7", value, count=1))))


def _more_digits(text: str, root: Node, random: Random) -> str:
    """5 V becomes 5.0 V: the same value, shown otherwise."""
    found = [node for _, node in _scalars(root) if re.match(r"\d+ \S", node.value)]
    node = random.choice(found)
    return _with(text, node, re.sub(r"^\d+", lambda digits: f"{digits[0]}.0", node.value))


def _without(text: str, root: Node, random: Random) -> str:
    """A circuit, plug, pin, part, fastener or code less, or a fact of one."""
    entry = random.choice([one for one in _entries(root) if len(one.path) > 1])
    lines = text.splitlines(keepends=True)
    return "".join(lines[: entry.first] + lines[entry.last :])


def _one_more(text: str, root: Node, random: Random) -> str:
    """An element of the same kind under another name, before or behind the one that it is like."""
    entry = random.choice([one for one in _entries(root) if len(one.path) in (2, 4)])
    lines = text.splitlines(keepends=True)
    copied = entry.lines(lines)
    name = random.choice((f"{entry.path[-1]}-too", "X99", "9", "P0AA6"))
    start = entry.key.start_mark.column
    copied = [copied[0][:start] + name + copied[0][start + len(entry.path[-1]) :], *copied[1:]]
    at = random.choice((entry.first, entry.last))
    return "".join(lines[:at] + copied + lines[at:])


def _other_order(text: str, root: Node, random: Random) -> str:
    """Two neighbours change places."""
    entries = [one for one in _entries(root) if len(one.path) in (2, 4)]
    pairs = [(a, b) for a in entries for b in entries if a.path[:-1] == b.path[:-1] and a.last == b.first]
    if not pairs:
        return text
    one, other = random.choice(pairs)
    lines = text.splitlines(keepends=True)
    return "".join(lines[: one.first] + other.lines(lines) + one.lines(lines) + lines[other.last :])


def _other_words(text: str, root: Node, random: Random) -> str:
    """A name, a place, a weight or a price: what is only shown."""
    keys = ("name", "location", "about", "mass", "price", "number", "signal", "means", "torque", "area")
    found = [(key, node) for key, node in _scalars(root) if key in keys]
    _, node = random.choice(found)
    return _with(text, node, re.sub(r"\d", "8", node.value) if re.search(r"\d", node.value) else f"{node.value} there")


CHANGES: tuple[Callable[[str, Node, Random], str], ...] = (
    *(_another_value, _another_value, _more_digits, _without, _one_more, _one_more, _other_order),
    *(_other_words, _other_words),
)


def changed(text: str, random: Random) -> str:
    """The profile after one change; the same where it cannot be read any more."""
    try:
        root = yaml.compose(text, Loader=yaml.CSafeLoader)
        return random.choice(CHANGES)(text, root, random) if isinstance(root, MappingNode) else text
    except (yaml.YAMLError, IndexError):
        return text


def _compared(folder: Path, profile: Path, random: Random, times: int) -> None:
    keeper = ManualKeeper(folder)
    keeper.manual(TODAY)
    original = profile.read_text("utf-8")
    for _ in range(times):
        base = original if random.random() < 0.4 else profile.read_text("utf-8")
        profile.write_text(changed(base, random), "utf-8")
        assert told(load_manual(folder, TODAY)) == told(keeper.manual(TODAY))


def _judged(folder: Path) -> tuple[object, ...]:
    """What is told of a manual, and what the walks find, also where something else is told in its place."""
    manual = load_manual(folder, TODAY)
    breaches = [
        (one.identity, one.way, one.word, one.ends)
        for surveyor in manual.surveyors.values()
        for name in surveyor.procedures
        for one in Court(surveyor).breaches(name)
    ]
    return breaches, told(manual)


def _judged_by_whole_profiles(folder: Path) -> tuple[object, ...]:
    """The same where rules and walks get all of a profile."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(Profiles, "of", lambda _, vehicle: Views(vehicle, vehicle))
        return _judged(folder)


@settings(
    max_examples=200 if IS_CAMPAIGN else 12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(seed=st.integers(0, 10**6))
def test_what_is_kept_of_procedures_is_what_judging_anew_would_give(
    tmp_path_factory: pytest.TempPathFactory, seed: int
) -> None:
    """Over the small manual, with a job that has findings which name things of the profile."""
    folder = write_manual(tmp_path_factory.mktemp("small"), {PAGE: PAGE_TEXT, JOB: WORK})
    _compared(folder, folder / PROFILE, Random(seed), 8)


@settings(
    max_examples=20 if IS_CAMPAIGN else 1, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(seed=st.integers(0, 10**6), vehicle=st.sampled_from(("larkway-m12", "thistledown-v4", "granbrook-t8")))
def test_what_is_kept_of_a_vehicle_of_the_demo_is_the_same(
    tmp_path_factory: pytest.TempPathFactory, seed: int, vehicle: str
) -> None:
    """Over one vehicle of the demo with all its procedures."""
    folder = tmp_path_factory.mktemp("demo")
    copytree(DEMO / "procedures" / vehicle, folder / "procedures" / vehicle)
    (folder / "procedures" / "workshop.yml").write_bytes((DEMO / "procedures" / "workshop.yml").read_bytes())
    _compared(folder, folder / "procedures" / vehicle / "vehicle.yml", Random(seed), 3)
    assert _judged_by_whole_profiles(folder) == _judged(folder)


@settings(
    max_examples=200 if IS_CAMPAIGN else 12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(seed=st.integers(0, 10**6))
def test_nothing_is_found_in_what_procedures_do_not_get(tmp_path_factory: pytest.TempPathFactory, seed: int) -> None:
    """Rules and walks that get the whole profile say the same, however it was changed."""
    folder, random = write_manual(tmp_path_factory.mktemp("views"), {PAGE: PAGE_TEXT, JOB: WORK}), Random(seed)
    text = VEHICLE
    for _ in range(6):
        text = changed(text if random.random() < 0.6 else VEHICLE, random)
        (folder / PROFILE).write_text(text, "utf-8")
        assert _judged_by_whole_profiles(folder) == _judged(folder)


@pytest.mark.parametrize(
    ("old", "new", "checked", "walked"),
    [
        ("name: Test van", "name: Trial van", 1, 0),
        ("name: Heater HV plug", "name: HV plug of the heater", 1, 0),
        ("signal: switched supply", "signal: supply behind the relay", 1, 0),
        ("torque: 20 N·m", "torque: 22 N·m", 3, 0),
        ("name: Traction DC bus", "name: DC bus", 3, 0),
        ("area: 25 mm2", "area: 35 mm2", 3, 0),
        ("max: 410 V", "max: 410.0 V", 3, 2),
        ("taken_off_by: [[aux-negative]]", "taken_off_by: [[charge-lead]]", 3, 2),
        ("3: {signal: switched supply, circuit: supply-12", "3: {signal: switched supply, circuit: traction", 3, 2),
    ],
)
def test_only_what_a_change_can_reach_is_judged_again(
    tmp_path: Path, old: str, new: str, checked: int, walked: int
) -> None:
    """The profile alone, its two procedures by the rules as well, or these by the walks too."""
    folder = write_manual(tmp_path, {})
    keeper = ManualKeeper(folder)
    keeper.manual(TODAY)
    assert 1 <= VEHICLE.count(old)
    (folder / PROFILE).write_text(VEHICLE.replace(old, new, 1), "utf-8")
    keeper.manual(TODAY)

    assert (checked, walked) == (len(keeper.inspector.checked), len(keeper.inspector.walked))


def test_a_finding_that_names_what_was_renamed_is_told_anew(tmp_path: Path) -> None:
    """The name of a circuit stands in what the walk found, though no walk sees it."""
    folder = write_manual(tmp_path, {JOB: PROCEDURE + "  - remove: inverter-cover\n"})
    keeper = ManualKeeper(folder)
    assert any("Traction DC bus" in one.message for one in keeper.manual(TODAY).by_file[JOB])
    (folder / PROFILE).write_text(VEHICLE.replace("Traction DC bus", "High-voltage bus"), "utf-8")

    assert any("High-voltage bus" in one.message for one in keeper.manual(TODAY).by_file[JOB])
