"""The preview: a server of this machine alone that shows what was saved last, and does not die of a mistake."""

import functools
import http.client
import json
import os
import signal
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from bayleaf.commands import preview as command
from bayleaf.site.saves import Saves
from kit import PLACES, PROCEDURE, link, write_manual


@dataclass
class Running:
    """A preview at work: where it is, what it said."""

    folder: Path
    said: list[str] = field(default_factory=list)

    @property
    def address(self) -> str:
        """The address that it told."""
        return next(line.split(" is at ")[1].split(" ")[0] for line in self.said if " is at " in line)

    def get(self, url: str) -> str:
        """A page as text."""
        with urllib.request.urlopen(self.address + url, timeout=20) as answer:
            return answer.read().decode("utf-8")

    def version(self) -> int:
        """How many states of the manual were shown."""
        return json.loads(self.get(".bayleaf/version"))["version"]

    def wait_for(self, holds: Callable[[], bool]) -> None:
        """Waits until something holds; fails after half a minute."""
        end = time.monotonic() + 30
        while not holds():
            assert time.monotonic() < end, self.said
            time.sleep(0.05)


@pytest.fixture
def running(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Running]:
    """The preview of the small manual."""
    state = Running(write_manual(tmp_path / "manual", {}))
    stop = threading.Event()

    wait = Saves.wait

    def waiting(saves: Saves, seconds: float) -> bool:
        if stop.is_set():
            raise KeyboardInterrupt
        return wait(saves, seconds)

    monkeypatch.setattr(Saves, "wait", waiting)
    monkeypatch.setattr(command.click, "echo", lambda text, **_: state.said.append(text))

    def work() -> None:
        with suppress(KeyboardInterrupt):
            command.command.callback(state.folder, 0, False, False)  # type: ignore[misc]

    thread = threading.Thread(target=work, daemon=True)
    thread.start()
    state_end = time.monotonic() + 30
    while not any(" is at " in line for line in state.said):
        assert time.monotonic() < state_end and thread.is_alive(), state.said
        threading.Event().wait(0.05)
    yield state
    stop.set()
    thread.join(timeout=10)


def test_it_is_for_this_machine_alone(running: Running) -> None:
    """The address is the loopback address."""
    assert running.address.startswith("http://127.0.0.1:")


def test_pages_styles_and_the_search_are_answered(running: Running) -> None:
    """A page with the script that reloads it, a style sheet, the index of the search, a page that is not there."""
    assert "Isolate the traction system" in running.get("test-van/isolate.html")
    assert ".bayleaf/version" in running.get("")
    assert ".bl-step" in running.get("assets/pages.css")
    assert "bayleafSearch" in running.get("search/index.js")
    with pytest.raises(urllib.error.HTTPError) as missing:
        running.get("nothing.html")
    assert missing.value.code == 404


def save(running: Running, text: str) -> None:
    version = running.version()
    (running.folder / PLACES["procedure"]).write_text(text, encoding="utf-8")
    running.wait_for(lambda: running.version() > version)


def test_what_is_saved_is_shown(running: Running) -> None:
    """The browser learns that there is something new, and the page has it."""
    save(running, PROCEDURE.replace("Look at the vehicle.", "Look under the vehicle."))

    assert "Look under the vehicle." in running.get("test-van/job.html")


def test_a_mistake_is_shown_and_mended_without_a_restart(running: Running) -> None:
    """A file that cannot be read in the middle of typing does not end the preview."""
    save(running, PROCEDURE + "  - measure: [\n")
    broken = running.get("test-van/isolate.html")
    save(running, PROCEDURE)

    assert "test-van/job" in broken and "1 error elsewhere" in broken
    running.wait_for(lambda: any("1 error" in line for line in running.said))
    running.wait_for(lambda: "no errors" in running.said[-1])
    assert "Look at the vehicle." in running.get("test-van/job.html")


def test_a_broken_configuration_does_not_end_it(running: Running) -> None:
    """The last state that could be shown stays, and a sentence says why."""
    config = running.folder / "mkdocs.yml"
    good = config.read_text(encoding="utf-8")
    said = len(running.said)
    config.write_text("site_name: [\n", encoding="utf-8")
    running.wait_for(lambda: len(running.said) > said)
    config.write_text(good, encoding="utf-8")
    save(running, PROCEDURE.replace("Look at the vehicle.", "Look once more."))

    running.wait_for(lambda: "Look once more." in running.get("test-van/job.html"))


def test_a_port_in_use_is_told(running: Running, tmp_path: Path) -> None:
    """Exit code 2 and a sentence that says what to do."""
    port = int(running.address.rstrip("/").rpartition(":")[2])
    said: list[Any] = running.said

    code = command.command.callback(running.folder, port, False, False)  # type: ignore[misc]

    assert code == 2
    assert "--port 0" in said[-1]


def test_a_configuration_that_goes_and_comes_back_does_not_end_it(running: Running) -> None:
    """An editor that saves by renaming leaves a moment without the file."""
    config = running.folder / "mkdocs.yml"
    good = config.read_text(encoding="utf-8")
    said = len(running.said)
    config.unlink()
    running.wait_for(lambda: len(running.said) > said)
    config.write_text(good, encoding="utf-8")
    save(running, PROCEDURE.replace("Look at the vehicle.", "Look again."))

    running.wait_for(lambda: "Look again." in running.get("test-van/job.html"))  # it may be told twice that all is well


def test_a_fault_of_the_program_does_not_end_it(running: Running, monkeypatch: pytest.MonkeyPatch) -> None:
    """The author is told, and goes on with the last state."""

    def fail(keeper: object) -> None:
        raise ZeroDivisionError("planted")

    with monkeypatch.context() as planted:
        planted.setattr(command.ManualKeeper, "manual", fail)
        (running.folder / PLACES["procedure"]).write_text(PROCEDURE + "\n", encoding="utf-8")
        running.wait_for(lambda: "planted" in running.said[-1])
        assert "Look at the vehicle." in running.get("test-van/job.html")
    save(running, PROCEDURE.replace("Look at the vehicle.", "Look again."))

    running.wait_for(lambda: "Look again." in running.get("test-van/job.html"))


def test_a_page_that_fails_is_told_in_its_place(running: Running, monkeypatch: pytest.MonkeyPatch) -> None:
    """The other pages are there, and the one that failed reloads when something is saved."""

    def fail(*_: object) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr("bayleaf.pages.all.procedure_body", fail)
    save(running, PROCEDURE + "\n")
    with pytest.raises(urllib.error.HTTPError) as failed:
        running.get("test-van/job.html")
    page = failed.value.read().decode("utf-8")

    assert failed.value.code == 500
    assert "planted" in page and ".bayleaf/version" in page
    assert "Test van" in running.get("test-van/vehicle.html")


def test_links_to_nowhere_and_locks_do_not_end_it(running: Running) -> None:
    """An editor's lock is a link that leads nowhere."""
    link(running.folder / "procedures" / "test-van" / ".#job.yml", "somebody@somewhere.4711")
    save(running, PROCEDURE.replace("Look at the vehicle.", "Look again."))

    assert "Look again." in running.get("test-van/job.html")


@pytest.mark.parametrize(
    ("host", "expected"), [("127.0.0.1:8765", 200), ("localhost", 200), ("elsewhere.example", 403)]
)
def test_it_answers_only_to_its_own_name(running: Running, host: str, expected: int) -> None:
    """A page of somebody else cannot have the browser read the manual by a name that leads to this machine."""
    port = int(running.address.rstrip("/").rpartition(":")[2])
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    connection.request("GET", "/.bayleaf/version", headers={"Host": host})

    assert connection.getresponse().status == expected
    connection.close()


@pytest.mark.skipif(os.name == "nt", reason="Windows sends Ctrl+C to a whole group of processes")
def test_ctrl_c_ends_it_with_130(tmp_path: Path) -> None:
    """Stopping it is no failure: one word, no traceback."""
    folder = write_manual(tmp_path / "manual", {})
    call = [sys.executable, "-m", "bayleaf", "preview", "--port", "0"]
    # In a script that runs in the background the signal is ignored, and a process inherits that.
    heard = functools.partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    with subprocess.Popen(call, cwd=folder, text=True, preexec_fn=heard, **pipes) as process:
        assert process.stdout is not None
        assert "http://127.0.0.1:" in process.stdout.readline()
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=20)

    assert process.returncode == 130
    assert said.strip() == "bayleaf: interrupted"


def test_tags_of_a_free_page_are_shown_and_their_mistakes_told(running: Running) -> None:
    """A page that comes, gets a wrong name, and is mended."""
    page = running.folder / PLACES["page"]

    def shown(text: str) -> str:
        version = running.version()
        page.write_text(text, encoding="utf-8")
        running.wait_for(lambda: running.version() > version)
        return running.get("notes.html")

    assert '<a href="test-van/isolate.html">Isolate the traction system</a>' in shown("[[procedure: test-van/isolate]]")
    assert "rules/tag-leads-nowhere.html" in shown("[[procedure: test-van/isolat]]")
    assert '<div class="bl-flow-picture">' in shown("[[flow: test-van/isolate]]")
    running.wait_for(lambda: "no errors" in running.said[-1])
