"""What the schemas do in an editor, shown by the language server that most editors use."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from bayleaf.editors.files import editor_files, write
from bayleaf.editors.settings import FOLDER, vscode_settings
from bayleaf.manual import load_manual
from bayleaf.rules.rule import all_rules
from editors.language_server import CHECKOUT, LanguageServer, installed
from kit import BASES, EXAMPLE, completed
from thinned import some

FILES = sorted(
    path.relative_to(CHECKOUT).as_posix()
    for folder in ("procedures", "records")
    for path in (CHECKOUT / folder).rglob("*.yml")
)
SOME = some(FILES, 5)
PROCEDURE = "procedures/larkway-m12/being-typed.yml"
EXAMPLES = [
    pytest.param(kind, text if whole else completed(text, BASES[kind]), id=f"{rule.name}-{index}")
    for rule in all_rules()
    for index, (outcome, kind, whole, text) in enumerate(EXAMPLE.findall(rule.page))
    if outcome == "passes" and kind != "page"
]
HEAD = """\
format: 1
id: larkway-m12/being-typed
title: Being typed
kind: inspection
revisions:
  - {number: 1, date: 2026-11-01, why: First}
steps:
"""


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the demo manual with its schemas for editors."""
    root = tmp_path_factory.mktemp("manual")
    for name in ("procedures", "records"):
        shutil.copytree(CHECKOUT / name, root / name)
    shutil.copy(CHECKOUT / "mkdocs.yml", root)
    write(editor_files(load_manual(root)), root / FOLDER)
    return root


def start(root: Path) -> LanguageServer:
    """The server as VS Code would start it in a manual."""
    script = installed()
    if not script.is_file():
        pytest.fail(f"These tests run a language server: `python tools.py test` puts it into {script.parents[3]}.")
    settings = vscode_settings(path.name for path in (root / "procedures").iterdir() if path.is_dir())
    return LanguageServer(
        script, {**settings, **dict.fromkeys(("yaml.hover", "yaml.completion", "yaml.validate"), True)}, root
    )


@pytest.fixture(scope="module")
def server(root: Path) -> Iterator[LanguageServer]:
    """One server for all tests that type into new files."""
    started = start(root)
    yield started
    started.close()


@pytest.mark.parametrize("file", some(FILES, 8))
def test_nothing_is_marked_in_the_demo(file: str, server: LanguageServer, root: Path) -> None:
    """What the checker accepts, an editor does not mark."""
    assert [] == [one["message"] for one in server.problems(root / file, (root / file).read_text("utf-8"))]


@pytest.mark.parametrize(("kind", "text"), some(EXAMPLES, 8))
def test_nothing_is_marked_in_what_a_rule_shows_as_passing(
    kind: str, text: str, server: LanguageServer, root: Path
) -> None:
    """The pages of the rules say that the checker accepts it: what an editor marks there would be a false alarm."""
    line = f"# yaml-language-server: $schema={(root / FOLDER / f'{kind}.schema.json').as_uri()}\n"

    assert [] == [one["message"] for one in server.problems(root / "elsewhere" / "example.yml", line + text)]


def test_an_example_is_held_against_the_schema_that_it_names(server: LanguageServer, root: Path) -> None:
    """Silence means that nothing is wrong: a key that no file has is marked."""
    for kind, text in [*{one.values[0]: one.values for one in EXAMPLES}.values()]:
        line = f"# yaml-language-server: $schema={(root / FOLDER / f'{kind}.schema.json').as_uri()}\n"
        assert server.problems(root / "elsewhere" / "example.yml", f"{line}no_such_key: 1\n{text}"), kind


def test_every_file_of_the_demo_is_held_against_a_schema(root: Path) -> None:
    """A key that no file has is marked in each, so that silence means that nothing is wrong."""
    server = start(root)
    marked = [
        file for file in SOME if server.problems(root / file, (root / file).read_text("utf-8") + "\nno_such_key: 1\n")
    ]
    server.close()

    assert SOME == marked


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("  - measure: Voltage\n    between: [|]\n", "X7/1 device"),
        ("  - measure: Voltage\n    between: [X7/1 device, |]\n", "chassis"),
        ("  - do: Look at it\n    on: |\n", "X7/1"),
        ("  - unplug: |\n", "X7"),
        ("  - disconnect: |\n", "service-plug"),
        ("  - prove_dead: |\n", "traction"),
        ("  - perform: |\n", "larkway-m12/isolate-traction"),
        ("  - measure: Voltage\n    using: |\n", "insulation-tester"),
        ("  - |\n", "step: measure"),
    ],
)
def test_the_names_of_the_vehicle_are_offered(typed: str, offered: str, server: LanguageServer, root: Path) -> None:
    """In the place where each is meant, for texts and in lists."""
    assert offered in server.offered(root / PROCEDURE, HEAD + typed)


def test_a_key_is_explained(server: LanguageServer, root: Path) -> None:
    """In the words of the schema."""
    assert "Another procedure, by its full id" in server.told(
        root / PROCEDURE, HEAD + "  - per|form: larkway-m12/isolate-traction\n"
    )


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("  - wait: 5\n", "the unit belongs to the value"),
        ("  - wait: '5'\n", "the unit belongs to the value"),
        ("  - measur: Voltage\n", "This is no key of a step"),
        ("  - unplug: X7\n    using: multimeter\n", "This key does not go with `unplug`."),
    ],
)
def test_what_is_wrong_is_told_in_words_of_the_trade(typed: str, said: str, server: LanguageServer, root: Path) -> None:
    """A misspelt key, a missing unit, a key of another action."""
    found = [one["message"] for one in server.problems(root / PROCEDURE, HEAD + typed)]

    assert any(said in message for message in found), found
