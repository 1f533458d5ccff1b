"""What the commands print on consoles of every kind, and where the output is cut off."""

import io
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest
from bayleaf.commands import common, run
from kit import MKDOCS, PLACES, PROCEDURE, write_manual

#: The signs of an older Windows console, of a pipe on Windows, of a bare terminal, and of everything.
ENCODINGS = ("cp437", "cp1252", "ascii", "utf-8")
SIGNS = PROCEDURE + "    time: 5 mΩ\n    expect: “ready” – 5 µF ± 2 % → 車 ü\n"


class Printed(NamedTuple):
    """What a command left behind: its exit code, and the bytes on both streams."""

    code: int
    out: bytes
    err: bytes


Call = Callable[..., Printed]


@pytest.fixture
def call(monkeypatch: pytest.MonkeyPatch) -> Call:
    """A function that runs a command in a folder on a console of some encoding, strict as consoles are."""

    def run_there(folder: Path, *arguments: str, encoding: str) -> Printed:
        streams = [io.TextIOWrapper(io.BytesIO(), encoding=encoding, errors="strict") for _ in range(2)]
        with monkeypatch.context() as console:
            console.chdir(folder)
            console.setattr(sys, "stdout", streams[0])
            console.setattr(sys, "stderr", streams[1])
            code = run(list(arguments))
        for stream in streams:
            stream.flush()
        out, err = (stream.buffer.getvalue() for stream in streams)  # type: ignore[attr-defined]
        return Printed(code, out, err)

    return run_there


@pytest.fixture
def manual(tmp_path: Path) -> Path:
    """A manual with signs that few consoles have, in its texts and in the name of its folder."""
    return write_manual(tmp_path / "Prüfstand Ω", {PLACES["procedure"]: SIGNS, "mkdocs.yml": MKDOCS})


@pytest.mark.parametrize("encoding", ENCODINGS)
@pytest.mark.parametrize(
    ("arguments", "code", "expected"),
    [
        (("check",), 1, "is a resistance, but a time is expected"),
        (("explain", "unit-missing"), 0, "Why it matters"),
        (("explain",), 0, "unit-missing"),
        (("check", "Ωµ→"), 2, "neither as a path nor as the id of a procedure"),
        (("--help",), 0, "Exit codes"),
    ],
)
def test_every_console_gets_readable_text(
    manual: Path, call: Call, encoding: str, arguments: tuple[str, ...], code: int, expected: str
) -> None:
    """Nothing fails for want of a sign, and the words around it are there."""
    done = call(manual, *arguments, encoding=encoding)
    text = (done.out + done.err).decode(encoding)
    assert code == done.code, text
    assert expected in " ".join(text.split())
    assert "Traceback" not in text and "\\u" not in text


@pytest.mark.parametrize(
    ("encoding", "expected"), [("ascii", '"ready" - 5 uF +/- 2 % -> ? ?'), ("utf-8", "“ready” – 5 µF ± 2 % → 車 ü")]
)
def test_signs_that_a_console_lacks_have_stand_ins(tmp_path: Path, call: Call, encoding: str, expected: str) -> None:
    """The line of the file is shown with what stands for its signs."""
    bad = PROCEDURE + "    expekt: “ready” – 5 µF ± 2 % → 車 ü\n"
    folder = write_manual(tmp_path, {PLACES["procedure"]: bad})
    assert expected in call(folder, "check", encoding=encoding).out.decode(encoding)


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_render_tells_the_place_of_the_site_on_every_console(tmp_path: Path, call: Call, encoding: str) -> None:
    """The path may hold signs that the console lacks."""
    folder = write_manual(tmp_path / "Prüfstand Ω", {})
    (folder / "site").mkdir()
    (folder / "site" / "mine.txt").write_text("mine", encoding="utf-8")
    done = call(folder, "render", encoding=encoding)
    assert 2 == done.code
    assert "holds files that bayleaf did not write" in done.err.decode(encoding)


@pytest.mark.parametrize("form", ["json", "sarif", "github"])
def test_what_programs_read_is_utf_8_on_every_console(manual: Path, call: Call, form: str) -> None:
    """An editor that reads the report gets every sign, whatever the console's encoding."""
    outputs = {call(manual, "check", "--format", form, encoding=encoding).out for encoding in ("ascii", "utf-8")}
    assert 1 == len(outputs)
    assert "mΩ" in outputs.pop().decode("utf-8")


def test_no_colour_where_the_output_is_no_terminal(manual: Path, call: Call) -> None:
    """A report in a file holds no signs for colours."""
    done = call(manual, "check", encoding="utf-8")
    assert b"\x1b" not in done.out + done.err


@pytest.mark.skipif(os.name == "nt", reason="Windows ends a broken pipe otherwise")
def test_a_reader_that_has_seen_enough_is_no_failure(tmp_path: Path) -> None:
    """`bayleaf check | head -1` ends without a word about it."""
    steps = "".join(f"  - unplug: Z{number}\n" for number in range(2000))
    folder = write_manual(tmp_path, {PLACES["procedure"]: PROCEDURE + steps})
    command = [sys.executable, "-m", "bayleaf", "check"]
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None and process.stderr is not None
        process.stdout.readline()
        process.stdout.close()
        said = process.stderr.read()
    assert b"" == said


def test_streams_of_other_kinds_are_left_as_they_are(monkeypatch: pytest.MonkeyPatch) -> None:
    """A program that runs the commands inside itself may have put anything in the place of the console."""
    monkeypatch.setattr(sys, "stdout", None)
    common.make_streams_forgiving()


_STOPPED_EARLY = """
import runpy, sys

class Interrupted:
    def find_spec(self, name, path, target=None):
        if name == "bayleaf.manual":
            raise KeyboardInterrupt

sys.meta_path.insert(0, Interrupted())
runpy.run_module("bayleaf", run_name="__main__")
"""


def test_ctrl_c_while_the_program_begins_is_no_failure() -> None:
    """What it needs is still being imported then."""
    done = subprocess.run([sys.executable, "-c", _STOPPED_EARLY], capture_output=True, text=True)
    assert (130, "", "bayleaf: interrupted\n") == (done.returncode, done.stdout, done.stderr)
