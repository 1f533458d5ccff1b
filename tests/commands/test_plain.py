"""What is written where words alone may be written: in a pipe, with TERM=dumb, with NO_COLOR; over all commands.

The commands run on a real terminal of the system, so that they see what they would see at a desk.
"""

import os
import re
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from bayleaf.commands import run
from kit import PLACES, PROCEDURE, RECORD, write_manual
from thinned import IS_CAMPAIGN, some

if os.name == "nt":
    pytest.skip("Windows has no pseudo-terminals of this kind", allow_module_level=True)

#: What a screen reader stumbles on: escape codes, drawn lines, blocks, braille, arrows, symbols and pictures.
STUMBLES = re.compile("[\x00-\x08\x0b-\x1f\u2190-\u21ff\u2500-\u25ff\u2600-\u27bf\u2800-\u28ff\U0001f000-\U0001ffff]")
#: A path over several steps and a line too wide for a console: what has most reason to be drawn.
FAULTY = PROCEDURE + "  - set: {mode: off}\n  - do: Look at it\n    on: nothing\n  - unplug: X7\n  - plug: X7\n"
#: Those that have most to mark and to draw stand first of two: `some` takes these.
CALLS = (
    ("--help",), ("completion",),
    ("check", "--today", "2026-11-01"), ("compute",),
    ("check", "--trace", "test-van/job", "--today", "2026-11-01"), ("schema", "--check"),
    ("check", "--fix", "--today", "2026-11-01"), ("start", "."),
    ("compute", "discharge", "R=47kohm", "C=1.1mF", "from=410V", "--plot"), ("explain", "live-conductor-touched"),
    ("record", "2026-0001", "--today", "2026-11-01"), ("render", "--today", "2026-11-01"),
    ("tidy", "--diff"), ("tidy", "--check"),
)  # fmt: skip


FILES = {PLACES["procedure"]: FAULTY, PLACES["record"]: RECORD}


@pytest.fixture(scope="module")
def manual(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A manual with a fault on a path."""
    return write_manual(tmp_path_factory.mktemp("manual"), FILES)


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same with as many files as it takes to show a bar."""
    more = (f"more-{number}" for number in range(220))
    many = {f"procedures/test-van/{name}.yml": PROCEDURE.replace("/job", f"/{name}") for name in more}
    return write_manual(tmp_path_factory.mktemp("large"), {**many, **FILES})


def on_terminal(folder: Path, call: tuple[str, ...], columns: int, **settings: str) -> str:
    """All that a command writes on a terminal of this width, on both streams."""
    import fcntl
    import pty
    import struct
    import termios

    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 50, columns, 0, 0))
    return _written(folder, call, ours, theirs, settings)


def piped(folder: Path, call: tuple[str, ...]) -> str:
    """The same in a pipe."""
    return _written(folder, call, *os.pipe(), {})


def _written(folder: Path, call: tuple[str, ...], ours: int, theirs: int, settings: dict[str, str]) -> str:
    """What a command writes into `theirs`, as it is read from `ours`: in this process, whose streams it gets."""
    with ThreadPoolExecutor() as beside, pytest.MonkeyPatch.context() as patch:
        reading = beside.submit(_read, ours)
        with open(theirs, "w", encoding="utf-8", buffering=1) as stream, open(os.devnull) as nothing:
            for name in ("stdout", "stderr", "__stdout__", "__stderr__"):
                patch.setattr(sys, name, stream)
            patch.setattr(sys, "stdin", nothing)
            patch.setattr(os, "environ", environment(settings))
            patch.chdir(folder)
            run(list(call))
    os.close(ours)
    return reading.result().decode("utf-8").replace("\r\n", "\n")


def _read(end: int) -> bytes:
    read = b""
    while True:
        try:
            part = os.read(end, 65536)
        except OSError:  # so Linux tells the end of a terminal
            return read
        if not part:
            return read
        read += part


def in_process(folder: Path, call: tuple[str, ...]) -> str:
    """The same as `piped`, by a program that was started for it."""
    done = subprocess.run(
        [sys.executable, "-m", "bayleaf", *call], cwd=folder, env=environment({}), stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
    )  # fmt: skip
    return done.stdout.decode("utf-8").replace("\r\n", "\n")


def environment(settings: dict[str, str]) -> dict[str, Any]:
    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS", "TERM")}
    return {**kept, "PYTHONUTF8": "1", "TERM": "xterm-256color", **settings}


@pytest.mark.parametrize("call", some(CALLS, 2), ids=" ".join)
def test_words_alone_and_the_same_words(manual: Path, call: tuple[str, ...]) -> None:
    """A pipe, a dumb terminal and NO_COLOR get the same, without a sign that stands in the way of reading aloud."""
    texts = {"pipe": piped(manual, call), "no colour": on_terminal(manual, call, 100, NO_COLOR="1")}
    if IS_CAMPAIGN or call[0] == "check":
        texts["dumb"] = on_terminal(manual, call, 100, TERM="dumb")

    for way, text in texts.items():
        assert text.strip(), way
        assert not STUMBLES.findall(text), (way, STUMBLES.findall(text)[:5])
        assert words_of(texts["pipe"]) == words_of(text), way


@pytest.mark.parametrize("call", [("--help",), ("check", "--today", "2026-11-01")], ids=" ".join)
def test_what_is_read_here_is_what_a_program_of_its_own_writes(manual: Path, call: tuple[str, ...]) -> None:
    """A test of the tests: starting the program for each of them would take most of their time."""
    assert in_process(manual, call) == piped(manual, call)


def test_the_width_changes_no_word(manual: Path) -> None:
    """Lines are broken elsewhere, and nothing is left out."""
    call = ("check", "test-van/job", "--today", "2026-11-01")
    narrow, wide = (on_terminal(manual, call, columns, NO_COLOR="1") for columns in (40, 200))

    assert narrow != wide
    assert words_of(piped(manual, call)) == words_of(narrow) == words_of(wide)


def test_a_terminal_that_can_shows_colour_and_a_bar(large: Path) -> None:
    """Or the other tests would show nothing. An empty NO_COLOR does not count, as https://no-color.org says."""
    call = ("check", "--today", "2026-11-01")
    for settings in ({}, {"NO_COLOR": ""}):
        shown = on_terminal(large, call, 100, **settings)

        assert "\x1b[1;31m" in shown and "Checking" in shown
    plain = piped(large, call)
    for way in (plain, on_terminal(large, call, 100, NO_COLOR="1"), on_terminal(large, call, 100, TERM="dumb")):
        assert not STUMBLES.findall(way) and words_of(way) == words_of(plain)


def test_a_terminal_that_can_shows_the_curve_in_fine_dots(manual: Path) -> None:
    """And a pipe shows it with stars."""
    call = ("compute", "discharge", "R=47kohm", "C=1.1mF", "from=410V", "--plot")

    assert re.search("[\u2800-\u28ff]", on_terminal(manual, call, 100))
    assert "*" in piped(manual, call)


def words_of(text: str) -> list[str]:
    """The words, however the lines are broken; marks below a line are drawn as wide as it."""
    return [word for word in text.split() if word.strip("^")]
