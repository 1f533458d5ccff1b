"""The preview: a server of this machine alone that shows what was saved last, and does not die of a mistake."""

import json
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
from kit import PLACES, PROCEDURE, write_manual


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

    def sleep(seconds: float) -> None:
        if stop.wait(min(seconds, 0.1)):
            raise KeyboardInterrupt

    monkeypatch.setattr("bayleaf.site.preview.time.sleep", sleep)
    monkeypatch.setattr(command.click, "echo", lambda text: state.said.append(text))

    def work() -> None:
        with suppress(KeyboardInterrupt):
            command.command.callback(state.folder, 0, False)  # type: ignore[misc]

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

    assert "job.yml" in broken
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

    assert "Look once more." in running.get("test-van/job.html")


def test_a_port_in_use_is_told(running: Running, tmp_path: Path) -> None:
    """Exit code 2 and a sentence that says what to do."""
    port = int(running.address.rstrip("/").rpartition(":")[2])
    said: list[Any] = running.said

    code = command.command.callback(running.folder, port, False)  # type: ignore[misc]

    assert code == 2
    assert "--port 0" in said[-1]
