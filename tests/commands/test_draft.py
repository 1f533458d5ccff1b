"""`bayleaf draft`: plain questions, numbered offers, an option for each of them, and nothing is ever overwritten."""

import io
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.manual import ManualKeeper, load_manual
from drafts_kit import DAY, ROOT, VEHICLES, bare
from kit import unwaived

TODAY = ("--today", DAY.isoformat())
HEATER = (
    "draft", "--vehicle", "larkway-m12", "--kind", "replacement", "--title", "Renew the cabin heater", "--system",
    "heating", "--code", "P1C42", "--symptom", "The cabin stays cold", "--touches", "cabin-heater", *TODAY,
)  # fmt: skip
#: Of this vehicle.
RECORDS = ("2026-0417.yml", "2026-0433.yml")
FILE = "procedures/larkway-m12/renew-cabin-heater.yml"
#: Its procedures that nothing here needs.
LEFT_OUT = ("replace-[!c]*", "converter-*", "drive-*", "inlet-*", "yearly-*", "change-*")


def copied(folder: Path) -> Path:
    """A copy of the demo with the procedures of one vehicle and the profiles of all."""
    shutil.copy(ROOT / "mkdocs.yml", folder)
    others = shutil.ignore_patterns("granbrook-*", "thistledown-*", *LEFT_OUT)
    shutil.copytree(ROOT / "procedures", folder / "procedures", ignore=others)
    for name in ("granbrook-t8", "thistledown-v4"):
        (folder / "procedures" / name).mkdir()
        shutil.copy(ROOT / "procedures" / name / "vehicle.yml", folder / "procedures" / name)
    photos, of_a_procedure = "procedures/granbrook-t8/photos", shutil.ignore_patterns("pump-plug-green.jpg")
    shutil.copytree(ROOT / photos, folder / photos, ignore=of_a_procedure)
    (folder / "records").mkdir()
    for name in RECORDS:
        shutil.copy(ROOT / "records" / name, folder / "records")
    return folder


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Such a copy, and the current folder."""
    monkeypatch.chdir(copied(tmp_path))
    answers(monkeypatch)
    return tmp_path


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> ManualKeeper:
    """Such a copy that is left as it is: what is known of it is kept from test to test."""
    return ManualKeeper(copied(tmp_path_factory.mktemp("kept")))


@pytest.fixture
def untouched(kept: ManualKeeper, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The copy that is left as it is, and the current folder: nothing is written there."""
    folder = kept._folder
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    monkeypatch.setattr("bayleaf.commands.draft.ManualKeeper", lambda _: kept)
    monkeypatch.chdir(folder)
    answers(monkeypatch)
    yield folder
    assert before == {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def answers(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    """What is typed; then nobody answers any more."""
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))


def test_options_alone_are_enough(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In a script nothing is asked; the file is told, with its places to fill and what to do next."""
    assert run([*HEATER]) == 0

    assert set() == {one.rule for one in unwaived(load_manual(manual, DAY).findings)} - {"todo-left"}
    out = capsys.readouterr().out
    assert f"Written: {FILE}" in out
    todos = (manual / FILE).read_text("utf-8").count("TODO")
    assert f"{todos} places are marked TODO: lines " in out
    assert f"bayleaf check {FILE}" in out
    assert "bayleaf preview" in out
    assert "?" not in out


def test_the_questions_make_the_same_file(manual: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By number, by name, by title; a slip is asked again."""
    run([*HEATER])
    by_options = (manual / FILE).read_text("utf-8")
    (manual / FILE).unlink()
    answers(
        monkeypatch, "2", "replacment", "replacement", "Renew the cabin heater", "", "heating", "P1C4", "4",
        "The cabin stays cold", "", "cabin-heatre", "Cabin heater for coolant, 5 kW",
    )  # fmt: skip

    assert run(["draft", *TODAY]) == 0
    assert by_options == (manual / FILE).read_text("utf-8")


def test_a_path_with_a_space_can_be_typed_as_it_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It stands in quotes, as every shell takes them."""
    bare(tmp_path / "our manual")
    monkeypatch.chdir(tmp_path)
    answers(monkeypatch)

    assert run([*HEATER, "--manual", "our manual"]) == 0
    assert f'  bayleaf check "our manual/{FILE}"\n' in capsys.readouterr().out


@pytest.mark.usefixtures("untouched")
def test_what_was_probably_meant_is_said(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """In the question as in the option."""
    answers(monkeypatch, "larkway-m21")
    assert run(["draft"]) == 2
    assert "there is no larkway-m21. Did you mean larkway-m12?" in capsys.readouterr().out

    assert run([*HEATER[:-4], "--touches", "cabin-heatre"]) == 2
    assert "--touches: there is no cabin-heatre. Did you mean cabin-heater?" in capsys.readouterr().err


@pytest.mark.usefixtures("untouched")
@pytest.mark.parametrize(
    ("lines", "option"),
    [
        ((), "--vehicle"),
        (("1",), "--kind"),
        (("1", "1"), "--title"),
        (("1", "1", "漢字"), "--name"),
        (("1", "1", "Look at it", "look"), "--touches"),
    ],
)
def test_where_nobody_answers_the_option_is_named(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], lines: tuple[str, ...], option: str
) -> None:
    """Standard input ends: exit code 2, and nothing is written."""
    answers(monkeypatch, *lines)

    assert run(["draft", *TODAY]) == 2
    assert f"bayleaf: nobody answers here, so say it with {option}\n" == capsys.readouterr().err


def test_nothing_is_overwritten(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Neither what a title leads to nor what is named."""
    (manual / FILE).write_text("mine", "utf-8")

    for more in ((), ("--name", "renew-cabin-heater")):
        assert run([*HEATER, *more]) == 2
        assert "there already" in "".join(capsys.readouterr())
    assert (manual / FILE).read_text("utf-8") == "mine"


@pytest.mark.usefixtures("untouched")
@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (("--vehicle", "larkway-m13"), "there is no vehicle larkway-m13. Did you mean larkway-m12?"),
        (("--vehicle", "tram"), "`bayleaf draft --new-vehicle tram` drafts a new one"),
        (("--kind", "repare"), "--kind: there is no repare. Did you mean repair?"),
        (("--name", "New Heater"), "use lower-case letters, digits and hyphens"),
        (("--name", "vehicle"), "vehicle cannot be the name of a file here"),
        (("--name", "aux"), "aux cannot be the name of a file: Windows keeps it for a device"),
        (("--code", "P0AA"), "--code: P0AA is no trouble code"),
        (("--system", "brakes"), "--system: there is no brakes"),
        (("--touches", "gearbox"), "--touches: there is no gearbox"),
        (("--today", "tomorrow"), "--today takes year-month-day"),
    ],
)
def test_wrong_options(capsys: pytest.CaptureFixture[str], wrong: tuple[str, str], told: str) -> None:
    """One sentence, exit code 2, nothing written."""
    option = wrong[0]
    at = HEATER.index(option) if option in HEATER else len(HEATER)
    assert run([*HEATER[:at], *wrong, *HEATER[at + 2 :]]) == 2

    assert told in capsys.readouterr().err


def test_a_manual_without_a_vehicle(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is said how the first profile is drafted."""
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    (tmp_path / "procedures").mkdir()
    monkeypatch.chdir(tmp_path)

    assert run(["draft"]) == 2
    assert "`bayleaf draft --new-vehicle NAME` drafts its profile" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("circuits: [traction, heater-coolant, supply-12]", "circuits: [tractoin, heater-coolant, supply-12]"),
        ("connectors: [X7, X210]", "connectors: [X7, X211]"),
        ("max: 410 V", "max: about 410"),
        ("    energy: electrical\n", "    energy: electric\n"),
    ],
)
def test_a_profile_with_a_slip(manual: Path, capsys: pytest.CaptureFixture[str], old: str, new: str) -> None:
    """What is meant is not known, so nothing is drafted; the line is named."""
    profile = manual / "procedures/larkway-m12/vehicle.yml"
    profile.write_text(profile.read_text("utf-8").replace(old, new, 1), "utf-8")

    assert run([*HEATER]) == 2
    assert "Put this right first" in capsys.readouterr().err
    assert not (manual / FILE).exists()


def test_no_manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """As of every command."""
    monkeypatch.chdir(tmp_path)
    assert run(["draft"]) == 2
    assert "is in no manual" in capsys.readouterr().err


def test_a_profile_that_lacks_facts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where nothing says when the circuit is dead, nothing is opened, and it is said why."""
    bare(tmp_path)
    profile = tmp_path / "procedures" / VEHICLES[1] / "vehicle.yml"
    text = profile.read_text("utf-8")
    start = text.index("    dead_at:\n")
    profile.write_text(text[:start] + text[text.index("  drive-phases:\n") :], "utf-8")
    monkeypatch.chdir(tmp_path)
    answers(monkeypatch)

    assert run([*HEATER]) == 0
    assert (
        "Note: cabin-heater is not taken apart in this draft: the profile does not say between which contacts "
        "“Traction DC bus” is proved dead." in " ".join(capsys.readouterr().out.split())
    )
    assert "unplug: X7" not in (tmp_path / FILE).read_text("utf-8")


def test_from_a_record(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """By the number of the job or by its path; title and name are those of the procedure and the job unless said."""
    made = manual / "procedures/larkway-m12/find-insulation-fault-2026-0433.yml"
    by_number = None
    for record in ("2026-0433", "records/2026-0433.yml"):
        assert run(["draft", "--from", record, *TODAY]) == 0
        by_number = by_number or made.read_bytes()
        assert by_number == made.read_bytes()
        made.unlink()
    out = capsys.readouterr().out
    assert "Job 2026-0433, worked by larkway-m12/find-insulation-fault" in out
    assert "1 place is marked TODO: line 7." in out
    assert "Note: 5 steps keep their own limits" in out


def test_from_a_record_that_lies_elsewhere(
    manual: Path, tmp_path_factory: pytest.TempPathFactory, capsys: pytest.CaptureFixture[str]
) -> None:
    """Such as one that was just saved from the page: the manual round the current folder has its procedure."""
    record = tmp_path_factory.mktemp("elsewhere") / "2026-0433.yml"
    shutil.move(manual / "records" / "2026-0433.yml", record)

    assert run(["draft", "--from", str(record), "--name", "heater-leaks", "--title", "Heater leaks", *TODAY]) == 0
    assert "Heater leaks" in (manual / "procedures/larkway-m12/heater-leaks.yml").read_text("utf-8")
    assert f"Note: put {record} into" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "old", "new", "told"),
    [
        (("--from", "2026-9999"), "", "", "there is no record 2026-9999, neither as a path nor as the number of a job"),
        (("--from", "2026-0433", "--kind", "repair"), "", "", "with --from the record says all but --title and --name"),
        (("--from", "2026-0433"), "find-insulation-fault", "find-rattle", "this manual has no such procedure"),
        (("--from", "2026-0433"), "revision: 3", "revision: two", "Put the record right first."),
        (("--from", "2026-0433", "--name", "isolate-traction"), "", "", "isolate-traction is there already"),
    ],
)
def test_records_that_give_no_draft(
    manual: Path, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], old: str, new: str, told: str
) -> None:
    """One sentence, exit code 2, nothing written."""
    record = manual / "records" / "2026-0433.yml"
    record.write_text(record.read_text("utf-8").replace(old, new) if old else record.read_text("utf-8"), "utf-8")
    before = sorted(manual.rglob("*.yml"))

    assert run(["draft", *arguments, *TODAY]) == 2
    assert told in capsys.readouterr().err
    assert before == sorted(manual.rglob("*.yml"))


def test_from_a_record_of_a_job_that_found_a_circuit_not_dead(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The draft is no way to work on what was not dead: the proof still stops there."""
    record = manual / "records" / "2026-0417.yml"
    text = record.read_text("utf-8")
    start = text.index("  - step: prove\n")
    entry = (
        text[start:]
        .split("  - step: prove\n")[1]
        .replace("0.4 V", "180 V")
        .replace("verdict: dead", "verdict: not dead")
    )
    record.write_text(f"{text[:start]}  - step: prove\n{entry}conclusion: failed-to-isolate\n", "utf-8")

    assert run(["draft", "--from", "2026-0417", "--name", "not-dead", *TODAY]) == 0
    made = (manual / "procedures/larkway-m12/not-dead.yml").read_text("utf-8")
    assert "not_dead: failed-to-isolate" in made
    assert "180 V" not in made


NEW = (
    "draft", "--new-vehicle", "mossford-e2", "--called", "Mossford E2", "--energy", "traction", "--energy", "supply-12",
    "--highest", "traction=410", "--highest", "supply-12=15 V", "--point", "service-plug", "--point", "aux-negative", *TODAY,
)  # fmt: skip


def test_a_new_vehicle(manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """By options or by questions the same file; that facts are missing is told, and the exit code says so."""
    path = manual / "procedures/mossford-e2/vehicle.yml"
    assert run([*NEW]) == 1
    out = capsys.readouterr().out
    assert "They are the facts that must be filled in." in out
    assert "source-not-stated" in out
    by_options = path.read_bytes()
    path.unlink()

    answers(monkeypatch, "Mossford E2", "traction, 12 V supply", "4100 V", "410", "15 V", "service-plug 4")
    assert run(["draft", "--new-vehicle", "mossford-e2", *TODAY]) == 1
    assert "4100 V is no highest voltage of this: more than 60 V and at most 1500 V" in capsys.readouterr().out
    assert by_options == path.read_bytes()

    assert run([*NEW]) == 2
    assert by_options == path.read_bytes()


@pytest.mark.usefixtures("untouched")
@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("--new-vehicle", "Mossford"), "cannot be the name of a folder here"),
        (("--new-vehicle", "book"), "cannot be the name of a folder here"),
        (("--new-vehicle", "con"), "con cannot be the name of a folder: Windows keeps it for a device"),
        (("--new-vehicle", "larkway-m12"), "larkway-m12 is there already"),
        (("--new-vehicle", "x1", "--kind", "repair"), "--new-vehicle goes with --called"),
        (("--energy", "traction"), "--new-vehicle goes with --called"),
        (("--new-vehicle", "x1"), "nobody answers here, so say it with --called"),
        (("--new-vehicle", "x1", "--called", "X"), "nobody answers here, so say it with --energy"),
        (("--new-vehicle", "x1", "--called", "X", "--energy", "steam"), "--energy: there is no steam"),
        (("--new-vehicle", "x1", "--called", "X", "--energy", "traction", "--highest", "410"), "--highest takes a circuit"),
        (("--new-vehicle", "x1", "--called", "X", "--energy", "traction", "--highest", "traction=48"), "more than 60 V"),
        (("--new-vehicle", "x1", "--called", "X", "--energy", "traction", "--highest", "traction=x"), "x is no voltage"),
        (("--new-vehicle", "x1", "--called", "X", "--energy", "traction", "--point", "plug"), "--point: there is no plug"),
    ],
)  # fmt: skip
def test_wrong_options_of_a_new_vehicle(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], told: str
) -> None:
    """One sentence, exit code 2, nothing written."""
    assert run(["draft", *arguments, *TODAY]) == 2
    assert told in capsys.readouterr().err
