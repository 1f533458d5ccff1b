"""What does not matter changes nothing; what is left out of a profile, or asked for beyond the floor, only adds findings."""

import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
import yaml
from bayleaf.diagnostics.finding import Finding
from bayleaf.loading.load import load
from bayleaf.loading.schema import schema
from bayleaf.manual import Manual, ManualKeeper, load_manual
from bayleaf.manual_files import File
from bayleaf.model.procedure import Procedure
from bayleaf.model.vehicle import Vehicle
from bayleaf.safety.breaches import Breach, Court
from kit import unwaived
from oracle.judges import _surveyor
from safety.demo_mutants import KINDS
from thinned import some

ROOT = Path(__file__).resolve().parents[2]
TODAY = date(2026, 11, 29)
WORKSHOP = "procedures/workshop.yml"
VEHICLES = ("granbrook-t8", "larkway-m12", "thistledown-v4")

#: Keys whose value is free text, wherever they stand in a file of this kind.
TEXTS = {
    "procedure": frozenset({
        "title", "about", "do", "expect", "ask", "finding", "say", "hazard", "consequence", "avoid", "why", "who",
    }),
    "vehicle": frozenset({"name", "meaning", "location", "about"}),
}  # fmt: skip
#: The rules that read free text and say something of one that is only "x".
READ_TEXT: frozenset[str] = frozenset({"heavy-part-off-raised-vehicle", "voltmeter-method-not-qualified"})
#: Keys of a profile without which less is known of its circuits.
FACTS = (
    "capacitance", "bleed", "stated_wait", "to_chassis", "max", "fused", "dead_at", "access", "secure_with", "breaks",
    "rotation",
)  # fmt: skip


def copied(folder: Path) -> Path:
    """The demo manual in a folder of its own."""
    for name in ("procedures", "records"):
        shutil.copytree(ROOT / name, folder / name)
    shutil.copy(ROOT / "mkdocs.yml", folder)
    return folder


def nodes(node: yaml.Node | None) -> Iterator[yaml.MappingNode]:
    """Every mapping of a file."""
    if isinstance(node, yaml.MappingNode):
        yield node
        for _, value in node.value:
            yield from nodes(value)
    elif isinstance(node, yaml.SequenceNode):
        for child in node.value:
            yield from nodes(child)


def written(root: yaml.Node | None) -> str:
    """The text of a file."""
    return str(yaml.serialize(root, Dumper=yaml.CSafeDumper, allow_unicode=True))


def renamed(text: str, keys: frozenset[str]) -> str:
    """A file in which every free text is "x"."""
    root = yaml.compose(text, Loader=yaml.CSafeLoader)
    for mapping in nodes(root):
        for key, value in mapping.value:
            if key.value in keys and isinstance(value, yaml.ScalarNode):
                value.value, value.style = "x", None
    return written(root)


def kind_of(path: Path) -> str:
    return "vehicle" if path.name == "vehicle.yml" else "procedure"


def identity(breach: Breach) -> tuple[object, ...]:
    """What a breach says, but for the places in the file."""
    turns = tuple((turn.step.number, turn.exit, turn.undoes) for turn in breach.turns)
    return *breach.identity[:3], breach.way, breach.word, breach.lacks, breach.out, turns, breach.ends, breach.variant


def breaches(procedures: dict[str, Procedure], vehicle: Vehicle) -> frozenset[tuple[object, ...]]:
    """Everything that the walk finds in the procedures of a vehicle."""
    court = Court(_surveyor(procedures, vehicle), holds=Fraction(0))  # every proof too old: something is always found
    return frozenset(identity(one) for name in procedures for one in court.breaches(name))


def of_vehicle(manual: Manual, name: str) -> dict[str, Procedure]:
    return {key: one for key, one in manual.procedures.items() if one.folder == name}


def spoilt(procedures: dict[str, Procedure], vehicle: Vehicle, kind: str) -> dict[str, Procedure]:
    """The first mistake of a kind in each procedure that has a place for it."""
    found = dict(procedures)
    for name, one in procedures.items():
        steps = next((steps for _, steps in KINDS[kind](one.steps, vehicle)), one.steps)
        found[name] = replace(one, steps=steps)
    return found


@pytest.fixture(scope="module")
def in_x(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    """The demo manual with "x" for every free text."""
    folder = copied(tmp_path_factory.mktemp("renamed"))
    for path in folder.glob("procedures/*/*.yml"):
        text = path.read_text(encoding="utf-8")
        path.write_text(renamed(text, TEXTS[kind_of(path)]), encoding="utf-8")
    return load_manual(folder, today=TODAY)


#: Each kind of mistake, and none, on each vehicle; in the short form each kind on one, and each vehicle twice.
SPOILT = [
    (kind, VEHICLES[(at + more + 1) % len(VEHICLES)])
    for at, kind in enumerate(("", "no lock", "no wait", "no proof", "not refitted", "ready before hands"))
    for more in range(len(VEHICLES))
]
#: Where the walk has no reason to find anything.
SOUND = {("", "thistledown-v4"), ("ready before hands", "thistledown-v4")}


@pytest.mark.parametrize(("kind", "name"), some(SPOILT, len(VEHICLES)))
def test_the_walk_reads_no_texts(demo: Manual, in_x: Manual, kind: str, name: str) -> None:
    """With "x" for every text it finds the same, on the same way: in the sound demo, and with a mistake in it."""
    one, other = of_vehicle(demo, name), of_vehicle(in_x, name)
    if kind:
        one, other = spoilt(one, demo.vehicles[name], kind), spoilt(other, in_x.vehicles[name], kind)
    expected = breaches(one, demo.vehicles[name])

    assert bool(expected) == ((kind, name) not in SOUND)
    assert expected == breaches(other, in_x.vehicles[name])


def test_only_the_rules_that_read_texts_mind(in_x: Manual) -> None:
    """The texts of the demo are no reason for anything else to be silent; what is waived is told all the same."""
    assert READ_TEXT == {one.rule for one in unwaived(in_x.findings)}


def without(text: str, wanted: str) -> Iterator[tuple[str, str]]:
    """A file without a key, at each place where it stands; the texts and what the places are called."""
    root = yaml.compose(text, Loader=yaml.CSafeLoader)
    for mapping in list(nodes(root)):
        for pair in list(mapping.value):
            if pair[0].value == wanted:
                place = mapping.value.index(pair)
                mapping.value.remove(pair)
                yield f"line {pair[0].start_mark.line + 1}", written(root)
                mapping.value.insert(place, pair)


def unsafe(vehicle: Vehicle, procedures: dict[str, Procedure]) -> dict[str, frozenset[object]]:
    """For each procedure of what the walk finds something in it, or in what it performs.

    Not at which step: a fault that is told earlier hides its own consequences. Nor how old a proof is: without the fact
    there may be none.
    """
    surveyor = _surveyor(procedures, vehicle)
    court = Court(surveyor)
    told = {
        name: {one.identity[2] for one in court.breaches(name) if one.kind not in ("relied", "early")}
        for name in procedures
    }
    return {name: frozenset().union(*(told[one] for one in (name, *surveyor.called(name)))) for name in procedures}


@pytest.mark.parametrize("key", some(FACTS, 2))
def test_a_fact_left_out_only_adds(demo: Manual, key: str, capsys: pytest.CaptureFixture[str]) -> None:
    """What is not known is unsafe: nothing of which the walk found something is thought safe without the fact."""
    tried, more = 0, 0
    knowing = [one for one in demo.vehicles.items() if f"{key}:" in (demo.text(one[1].file) or "")]
    for name, vehicle in some(knowing, 3):
        sound, text = of_vehicle(demo, name), demo.text(vehicle.file)
        assert text is not None
        places = list(without(text, key))
        for kind, tried_at in (("", some(places, 1 + len(places) // 3)), ("one pair proved", places[:1])):
            procedures = spoilt(sound, vehicle, kind) if kind else sound
            before = unsafe(vehicle, procedures)
            for place, less in tried_at:
                after = unsafe(load(vehicle.file, less.encode("utf-8"), "vehicle").model, procedures)
                tried, more = tried + 1, more + sum(len(after[one] - before[one]) for one in before)
                assert [] == [(one, before[one] - after[one]) for one in before if before[one] - after[one]], place
    with capsys.disabled():
        print(f"\n{key}: left out {tried} times, {more} more is unsafe", end="")
    assert tried


#: For each key of the policy values that ask for more than the floor, and some that ask for less.
SAFER = {
    "dead_below": ("5 V", "12 V", "59 V", "60 V"),
    "guard_band": ("1", "1.5", "3"),
    "proof_holds": ("5 min", "30 min", "60 min"),
    "allow_vin": ("no", "yes"),
}
#: Less than an hour is not asked for whatever is written there, so that is only a warning.
LAXER_IS = {"dead_below": "error", "guard_band": "error", "proof_holds": "error"}
LAXER = {
    "dead_below": ("61 V", "120 V"),
    "guard_band": ("0", "0.9"),
    "proof_holds": ("61 min", "8 h"),
    "allow_vin": (),
}


def under_policy(keeper: ManualKeeper, policy: str | None) -> list[Finding]:
    """The findings of a manual under a policy; None: none at all."""
    root = yaml.compose((ROOT / WORKSHOP).read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    assert isinstance(root, yaml.MappingNode)
    root.value = [pair for pair in root.value if pair[0].value != "policy"]
    text = written(root) + (f"policy: {{{policy}}}\n" if policy is not None else "")
    return list(keeper.manual(TODAY, drafts={File(WORKSHOP, "workshop"): text.encode()}).findings)


def plain(findings: list[Finding]) -> set[tuple[str, int, str]]:
    return {(one.place.file, one.place.line, one.rule) for one in findings}


def test_every_key_of_the_policy_is_tried() -> None:
    """A new one belongs into both tables."""
    keys = set(schema("workshop")["properties"]["policy"]["properties"])

    assert keys == set(SAFER) == set(LAXER)


def test_a_policy_only_adds(tmp_path: Path) -> None:
    """Safer: all that the floor finds is found. Laxer: told at the key itself. Tried on one vehicle of the demo."""
    others = shutil.ignore_patterns("granbrook-*", "thistledown-*")
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures", ignore=others)
    keeper = ManualKeeper(tmp_path)
    floor = plain(under_policy(keeper, None))
    for key, values in SAFER.items():
        for value in values:
            found = under_policy(keeper, f"{key}: {value}")
            assert floor <= plain(found), (key, value)
            assert not [one for one in found if one.place.file.endswith("workshop.yml")], (key, value)
    for key, values in LAXER.items():
        for value in values:
            found = under_policy(keeper, f"{key}: {value}")
            told = [one.severity for one in found if one.place.file.endswith("workshop.yml")]
            assert [LAXER_IS[key]] == told, (key, value)
            assert floor <= plain(found), (key, value)
