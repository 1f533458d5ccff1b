r"""Windows' own Python, in its own console: signs that are typed there, piped answers, the bytes of a site.

The environment variable BAYLEAF_WINDOWS names a command that starts a Python for Windows on this machine, through wine,
with Bayleaf and its packages in its path: `wine64 'C:\python\python.exe'`. Without it these tests are left out.
"""

import os
import re
import select
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.site.folder import listing

DAY = ("--today", "2026-11-29")
TITLE = "Prüfe die Kühlung “warm” bei 25 °C, ≥ 5 MΩ, 3 µF"
SYMPTOM = "Ölgeruch über 40 °C"
OPTIONS = (
    "draft", "--vehicle", "wrenfold-c4", "--kind", "diagnosis", "--title", TITLE, "--name", "look", "--system", "none",
    "--code", "none", "--symptom", SYMPTOM, "--touches", "traction-battery", *DAY,
)  # fmt: skip
#: What is asked, and what is typed; the second kind of job is a slip.
KEYS = (
    ("Number or name [wrenfold-c4]:", ""),
    ("Number or name:", "diagnosys"),
    ("Did you mean diagnosis?", "diagnosis"),
    ("What is done, in one line:", TITLE),
    ("Name of the file", "look"),
    ("Numbers or names", "none"),
    ("Codes or numbers", "none"),
    ("Symptom (empty", SYMPTOM),
    ("Symptom (empty", ""),
    ("Numbers or names", "1"),
)
#: What moves the cursor, colours, or names the window.
_CONTROL = re.compile(r"\x1b(?:\[[0-9;?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)|[=>78])")
_AT_MOST = 120


@pytest.fixture(scope="module")
def windows() -> list[str]:
    """The start of a call of `bayleaf` there."""
    named = os.environ.get("BAYLEAF_WINDOWS")
    if not named or os.name == "nt":
        pytest.skip("BAYLEAF_WINDOWS names no command that starts a Python for Windows on another system")
    return [*shlex.split(named), "-m", "bayleaf"]


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual that was just begun, and the current folder."""
    folder = tmp_path / "manual"
    assert run(["start", str(folder), *DAY]) == 0
    monkeypatch.chdir(folder)
    return folder


@pytest.fixture
def by_options(manual: Path) -> bytes:
    """The draft as it is made here, by options; it is taken away again."""
    file = manual / "procedures/wrenfold-c4/look.yml"
    assert run([*OPTIONS]) == 0
    data = file.read_bytes()
    file.unlink()
    return data


class Console:
    """A program in a console of Windows, which is drawn on a terminal of ours."""

    def __init__(self, call: list[str]) -> None:
        import fcntl
        import pty
        import struct
        import termios
        import tty

        self._ours, theirs = pty.openpty()
        tty.setraw(theirs)  # each key as it is: the console is the one that edits a line
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 60, 200, 0, 0))
        self._process = subprocess.Popen(
            call, stdin=theirs, stdout=theirs, stderr=theirs, start_new_session=True,
            env={**os.environ, "TERM": "xterm"},
        )  # fmt: skip
        os.close(theirs)
        self._bytes = b""
        self._read = 0

    @property
    def shown(self) -> str:
        """All that was written so far, as words."""
        return _CONTROL.sub("", self._bytes.decode("utf-8", "replace"))

    def wait_for(self, words: str) -> None:
        """Waits until something is shown behind what was waited for before."""
        while words not in self.shown[self._read :]:
            assert self._hears(), f"waited for {words!r}, and this was shown:\n{self.shown}"
        self._read = self.shown.index(words, self._read) + len(words)

    def type(self, keys: str) -> None:
        """Presses keys, and Enter."""
        os.write(self._ours, f"{keys}\r".encode())

    def ended(self) -> int:
        """Waits for the end; the exit code."""
        while self._hears():
            pass
        return self._process.wait(_AT_MOST)

    def close(self) -> None:
        """Ends it, whatever it does."""
        self._process.kill()
        self._process.wait()
        os.close(self._ours)

    def _hears(self) -> bool:
        ready, _, _ = select.select([self._ours], [], [], _AT_MOST)
        try:
            data = os.read(self._ours, 65536) if ready else b""
        except OSError:  # so Linux tells that the other end is closed
            data = b""
        self._bytes += data
        return bool(data)


@pytest.fixture
def console(windows: list[str], manual: Path, by_options: bytes) -> Iterator[Console]:
    """`bayleaf draft`, which asks."""
    made = Console([*windows, "draft", *DAY])
    yield made
    made.close()


def test_a_draft_by_keys_is_the_draft_by_options(console: Console, manual: Path, by_options: bytes) -> None:
    """Signs beyond ASCII come through the console both ways, and a slip is asked again."""
    for question, answer in KEYS:
        console.wait_for(question)
        console.type(answer)
    console.wait_for("Written: procedures/wrenfold-c4/look.yml")

    assert console.ended() == 0
    assert TITLE in console.shown and SYMPTOM in console.shown
    assert "\ufffd" not in console.shown
    assert by_options == (manual / "procedures/wrenfold-c4/look.yml").read_bytes()


def test_ctrl_z_ends_the_questions(console: Console, manual: Path) -> None:
    """So input ends on Windows: one line, no file."""
    console.wait_for("Number or name [wrenfold-c4]:")
    console.type("\x1a")
    console.wait_for("bayleaf: interrupted")

    assert console.ended() == 130
    assert "Traceback" not in console.shown
    assert not (manual / "procedures/wrenfold-c4/look.yml").exists()


def test_piped_answers_make_the_same_draft(windows: list[str], manual: Path, by_options: bytes) -> None:
    """As UTF-8, which is not what Windows takes a pipe for."""
    answers = "".join(f"{answer}\r\n" for _, answer in KEYS).encode()
    done = subprocess.run([*windows, "draft", *DAY], input=answers, capture_output=True)

    assert done.returncode == 0, done.stderr
    assert by_options == (manual / "procedures/wrenfold-c4/look.yml").read_bytes()


def test_a_site_has_the_same_bytes(windows: list[str], manual: Path) -> None:
    """So a device fetches nothing anew when the manual is rendered on another computer."""
    sites = []
    for call in (windows, [sys.executable, "-m", "bayleaf"]):
        subprocess.run([*call, "render", *DAY], input=b"", capture_output=True, check=True)
        sites.append({name: (manual / "site" / name).read_bytes() for name in listing(manual / "site")})
    dated = {"sitemap.xml", "sitemap.xml.gz"}
    assert [] == [name for name in sites[1] if sites[0].get(name) != sites[1][name] and name not in dated]
    assert sites[0].keys() == sites[1].keys()
