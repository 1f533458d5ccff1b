"""The examples that `--help` shows: every command has some, and each does what it says when it is typed."""

import io
import shlex
import shutil
from collections.abc import Iterator
from pathlib import Path

import click
import pytest
from bayleaf.commands import program, run
from bayleaf.commands._help import WithExamples
from kit import write_manual

CHECKOUT = Path(__file__).resolve().parents[2]
NAMES = program.list_commands(click.Context(program))


def command_of(name: str) -> click.Command:
    found = program.get_command(click.Context(program), name)
    assert found is not None
    return found


def examples() -> Iterator[str]:
    for command in (program, *map(command_of, NAMES)):
        assert isinstance(command, WithExamples), command.name
        yield from (call for call, _ in command.examples)


def goes_on(call: str) -> bool:
    """Until somebody stops it: other tests run these, and stop them."""
    return "preview" in call or "--watch" in call


#: Examples that make a whole manual, or ask: typed in the small manual. What they write there, and what is answered.
IN_SMALL = {
    "bayleaf render": (("site/index.html", "site/test-van/job.html"), ()),
    "bayleaf render --zip": (("site/index.html", "out/manual.zip"), ()),
    "bayleaf render --pdf": (("out/manual.pdf",), ()),
    "bayleaf draft": (
        ("procedures/test-van/look-at-the-heater.yml",),
        ("test-van", "inspection", "Look at the heater", "look-at-the-heater", "heating", "", "", "cabin-heater"),
    ),
}


#: What is not known of a drafted vehicle counts as unsafe; the schemas of a manual for editors are not in git.
AT_FAULT = ("bayleaf draft --new-vehicle", "bayleaf schema --check")
EXAMPLES = list(dict.fromkeys(examples()))


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the demo manual with the one vehicle of which the examples speak."""
    folder = tmp_path_factory.mktemp("demo") / "manual"
    for name in ("procedures", "records"):
        shutil.copytree(CHECKOUT / name, folder / name, ignore=shutil.ignore_patterns("granbrook-*", "thistledown-*"))
    for record in (folder / "records").glob("*.yml"):
        if "larkway-m12/" not in record.read_text(encoding="utf-8"):
            record.unlink()
    shutil.copy(CHECKOUT / "mkdocs.yml", folder)
    return folder


@pytest.mark.parametrize("name", NAMES)
def test_every_command_has_examples_and_shows_them(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Each begins with the command itself; what is typed stands in one line, whole, however narrow the console is."""
    command = command_of(name)
    assert isinstance(command, WithExamples) and command.examples

    assert 0 == run([name, "--help"])

    shown = [line.strip() for line in capsys.readouterr().out.split("\nExamples:\n")[1].splitlines()]
    for call, words in command.examples:
        assert call == f"bayleaf {name}" or call.startswith(f"bayleaf {name} ")
        assert call in shown
        assert words.split()[0] == shown[shown.index(call) + 1].split()[0]


def test_the_program_itself_shows_where_to_begin(capsys: pytest.CaptureFixture[str]) -> None:
    """Start, check, look: the way of somebody who has never called it."""
    assert 0 == run(["--help"])
    shown = capsys.readouterr().out

    assert ["start", "check", "preview"] == [
        call.split()[1]
        for call, _ in program.examples
        if "--help" not in call  # type: ignore[attr-defined]
    ]
    assert all(call in shown for call, _ in program.examples)  # type: ignore[attr-defined]


@pytest.mark.parametrize("call", [call for call in EXAMPLES if not goes_on(call) and call not in IN_SMALL])
def test_every_example_can_be_typed(
    call: str, demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It ends well in a manual without a fault; `start` is typed outside of a manual."""
    monkeypatch.chdir(tmp_path if " start " in call else shutil.copytree(demo, tmp_path / "manual"))

    expected = 1 if call.startswith(AT_FAULT) else 0
    assert expected == run(shlex.split(call)[1:]), capsys.readouterr().err


@pytest.mark.parametrize("call", IN_SMALL)
def test_an_example_for_a_whole_manual_can_be_typed(
    call: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It ends well, and what it says is there; `draft` asks for each answer, and for nothing else."""
    assert call in EXAMPLES
    made, answers = IN_SMALL[call]
    monkeypatch.chdir(write_manual(tmp_path, {}))
    typed = io.TextIOWrapper(io.BytesIO("".join(f"{answer}\n" for answer in answers).encode()), "utf-8")
    monkeypatch.setattr("sys.stdin", typed)

    assert 0 == run(shlex.split(call)[1:]), capsys.readouterr()
    assert [] == [file for file in made if not (tmp_path / file).stat().st_size]
    assert "" == typed.read()


@pytest.mark.parametrize("call", list(filter(goes_on, EXAMPLES)))
def test_every_other_example_is_understood(call: str) -> None:
    """Its words are read as they would be, and it is not begun."""
    _, name, *words = shlex.split(call)

    context = command_of(name).make_context(name, words)

    assert context.params
