"""The tutorial of the book is followed to the letter: each command is run, each edit made, each answer compared."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PAGE = Path(__file__).resolve().parents[1] / "procedures" / "book" / "first-procedure.md"
EDITED = "procedures/wrenfold-c4/replace-cabin-heater.yml"
#: How the questions of the program begin; what stands behind the colon is typed.
QUESTIONS = ("Number or name", "What is done", "Name of the file", "Numbers or names", "Codes or numbers", "Symptom (")
LEFT_OUT = "…"

Block = tuple[str, str]


def parts(text: str) -> Iterator[Block]:
    """What the page has one do, in its order: `console` blocks, and pairs of texts of which the second replaces the first."""
    told = re.compile(
        r"```console\n(?P<console>.*?)```"
        r"|nstead of\n\n```yaml\n(?P<old>.*?)```\n\nwrite\n\n```yaml\n(?P<new>.*?)```"
        r"|(?P<words>[Ii]nstead of `(?P<was>[^`]+)` write `(?P<is>[^`]+)`)"
        r"|(?P<back>[Ww]rite `(?P<again>[^`]+)` again\s+instead of `(?P<slip>[^`]+)`)",
        re.DOTALL,
    )
    for found in told.finditer(text):
        if found["console"] is not None:
            yield "console", found["console"]
        elif found["old"] is not None:
            yield found["old"], found["new"]
        elif found["words"] is not None:
            yield found["was"], found["is"]
        else:
            yield found["slip"], found["again"]


def commands(console: str) -> Iterator[tuple[str, str]]:
    """Each command of a block with the lines that it answers."""
    for piece in re.split(r"^\$ ", console, flags=re.MULTILINE)[1:]:
        command, _, answer = piece.partition("\n")
        yield command, answer


def asked(answer: str) -> tuple[str, str]:
    """What the program prints when nobody sits at a console, and what is typed."""
    printed, typed = [], []
    for line in answer.splitlines(keepends=True):
        question, mark, reply = line.partition(": " if ": " in line else ":")
        if line.startswith(QUESTIONS) and mark:
            printed.append(f"{question}: ")
            typed.append(reply.strip())
        else:
            printed.append(line)
    return "".join(printed), "\n".join(typed) + "\n"


def as_pattern(printed: str) -> re.Pattern[str]:
    """A text in one line; where three dots stand for lines, any may stand."""
    pieces = re.split(rf"^{LEFT_OUT}$", printed, flags=re.MULTILINE)
    return re.compile(".*?".join(re.escape(in_one_line(piece)) for piece in pieces) + "$")


def in_one_line(text: str) -> str:
    """Without its line ends: nobody presses Enter when there is no console."""
    return " ".join(text.split())


def test_the_tutorial_holds(tmp_path: Path) -> None:
    """From an empty folder to the sheet; not one answer differs from what the page shows."""
    folder = tmp_path
    seen = []
    for first, second in parts(PAGE.read_text(encoding="utf-8")):
        if first != "console":
            file = folder / EDITED
            text = file.read_text(encoding="utf-8")
            assert text.count(first) == 1, first
            file.write_text(text.replace(first, second), encoding="utf-8")
            continue
        for command, answer in commands(second):
            if command.startswith("cd "):
                folder = folder / command[3:]
                continue
            printed, typed = asked(answer)
            got = run(command, folder, typed)
            assert as_pattern(printed).match(in_one_line(got)), f"$ {command}\n{got}\n--- the page says\n{printed}"
            seen.append(command.split()[1])

    assert ["start", "check", "draft", "check", "check", "check", "tidy", "check", "render", "render"] == seen
    assert (folder / "site" / "wrenfold-c4" / "replace-cabin-heater.html").is_file()
    assert (folder / "out" / "wrenfold-c4-replace-cabin-heater.html").is_file()


def run(command: str, folder: Path, typed: str) -> str:
    """What a command of the program prints, standard error included."""
    program, *words = command.split()
    assert program == "bayleaf"
    done = subprocess.run(
        [sys.executable, "-m", "bayleaf", *words],
        cwd=folder,
        input=typed,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        env={**os.environ, "PYTHONUTF8": "1", "COLUMNS": "100"},
    )
    return done.stdout


@pytest.mark.parametrize("command", ["draft", "tidy", "preview", "render", "check"])
def test_the_page_names_what_a_beginner_needs(command: str) -> None:
    """Every command of the first day is on the page."""
    assert f"bayleaf {command}" in PAGE.read_text(encoding="utf-8")
