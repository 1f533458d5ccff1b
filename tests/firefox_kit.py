"""Firefox, told what to do by WebDriver BiDi (W3C), which it speaks itself: no other program stands between."""

import base64
import json
import re
import subprocess
import tempfile
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path
from types import TracebackType
from typing import Any

from websockets.sync.client import connect

_LISTENS = re.compile(r"WebDriver BiDi listening on (ws://\S+)")
#: Seconds after which an answer does not come any more.
_PATIENCE = 120
#: The clock of a page can be put forward: `ahead` are milliseconds, and outlive a reload.
_CLOCK = """() => {
  const Real = Date;
  const ahead = () => Number(sessionStorage.getItem("ahead"));
  globalThis.Date = class extends Real {
    constructor(...given) { given.length ? super(...given) : super(Real.now() + ahead()); }
    static now() { return Real.now() + ahead(); }
  };
}"""


class Firefox:
    """One window of it, without a profile of anybody's.

    `faults` are the texts of script errors, `asked` the addresses that were requested.
    """

    def __init__(self, program: str) -> None:
        self.faults: list[str] = []
        self.asked: list[str] = []
        self._profile = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        told = ["--headless", "--no-remote", "--remote-debugging-port=0", "--profile", self._profile.name]
        self._process = subprocess.Popen(
            [program, *told], stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True, encoding="utf-8"
        )
        self._closing = ExitStack()
        self._socket = self._closing.enter_context(
            connect(f"{self._address()}/session", max_size=None, open_timeout=_PATIENCE)
        )
        self._number = 0
        self._send("session.new", capabilities={})
        self._send("session.subscribe", events=["log.entryAdded", "network.beforeRequestSent"])
        self._send("script.addPreloadScript", functionDeclaration=_CLOCK)
        self._tab = self._send("browsingContext.create", type="tab")["context"]

    def __enter__(self) -> "Firefox":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._send("browser.close")
        self._closing.close()
        self._process.wait(timeout=_PATIENCE)
        self._profile.cleanup()

    def resize(self, width: int, height: int) -> None:
        """Give the page this many pixels."""
        self._send("browsingContext.setViewport", context=self._tab, viewport={"width": width, "height": height})

    def open(self, address: str) -> None:
        """Open an address and wait until it stands."""
        self._send("browsingContext.navigate", context=self._tab, url=address, wait="complete")

    def reload(self) -> None:
        """Open it again."""
        self._send("browsingContext.reload", context=self._tab, wait="complete")

    def ask(self, function: str, *given: Any) -> Any:
        """What a function of JavaScript gives in the page, with these values, all as JSON has them."""
        called = f"Promise.resolve(({function})(...{json.dumps(given)})).then((found) => JSON.stringify(found ?? null))"
        told = self._send("script.evaluate", expression=called, target={"context": self._tab}, awaitPromise=True)
        if told["type"] == "exception":
            raise AssertionError(told["exceptionDetails"]["text"])
        return json.loads(told["result"]["value"])

    def tap(self, selector: str) -> None:
        """Touch the middle of the first element of this selector."""
        element = self._element(selector)
        moves = [
            {"type": "pointerMove", "x": 0, "y": 0, "origin": {"type": "element", "element": element}},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]
        self._act({"type": "pointer", "id": "finger", "parameters": {"pointerType": "touch"}, "actions": moves})

    def keys(self, keys: str | Sequence[str]) -> None:
        """Press and let go one key after the other; special keys by their code points in WebDriver."""
        moves = [{"type": kind, "value": key} for key in keys for kind in ("keyDown", "keyUp")]
        self._act({"type": "key", "id": "keys", "actions": moves})

    def photo(self, path: Path) -> None:
        """What the window shows, as a PNG file: to be looked at."""
        path.write_bytes(base64.b64decode(self._send("browsingContext.captureScreenshot", context=self._tab)["data"]))

    def _element(self, selector: str) -> dict[str, str]:
        found = self._send(
            "browsingContext.locateNodes", context=self._tab, locator={"type": "css", "value": selector}, maxNodeCount=1
        )["nodes"]
        assert found, f"nothing is found by {selector}"
        self.ask("(one) => document.querySelector(one).scrollIntoView({ block: 'center' })", selector)
        return {"sharedId": found[0]["sharedId"]}

    def _act(self, source: dict[str, Any]) -> None:
        self._send("input.performActions", context=self._tab, actions=[source])

    def _address(self) -> str:
        assert self._process.stderr is not None
        for line in self._process.stderr:
            found = _LISTENS.search(line)
            if found:
                return found[1]
        raise AssertionError("Firefox ended before it listened")

    def _send(self, method: str, **parameters: Any) -> Any:
        self._number += 1
        self._socket.send(json.dumps({"id": self._number, "method": method, "params": parameters}))
        while True:
            told = json.loads(self._socket.recv(timeout=_PATIENCE))
            if told["type"] == "event":
                self._note(told["method"], told["params"])
            elif told["id"] == self._number:
                assert told["type"] == "success", told
                return told["result"]

    def _note(self, method: str, told: dict[str, Any]) -> None:
        if method == "network.beforeRequestSent":
            self.asked.append(told["request"]["url"])
        elif told["type"] == "javascript" and told["level"] == "error":
            self.faults.append(told["text"])
