"""A small local server that shows the manual while it is written."""

import json
import sys
import threading
import time
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from html import escape
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

from .preview import POLL, Preview, watching
from .saves import Saves

#: Only this machine can ask: the manual of a workshop is not for its whole network while it is being written.
HOST = "127.0.0.1"
#: By these names alone it may be asked: another one was made to lead here by a page of somebody else.
_NAMES = frozenset((HOST, "localhost"))
#: So many seconds a page waits for a save before it asks again.
_WAIT = 20


@dataclass
class _State:
    """What all requests share; `version` counts the states of the manual.

    It counts on from the time, so that a page that outlived the server before sees something new.
    """

    preview: Preview
    version: int = field(default_factory=lambda: int(time.time()))
    changed: threading.Condition = field(default_factory=threading.Condition)

    def show(self, preview: Preview) -> None:
        """A newer state, told to every page that waits."""
        with self.changed:
            self.preview, self.version = preview, self.version + 1
            self.changed.notify_all()

    def now(self) -> tuple[Preview, int]:
        """The state and its number."""
        with self.changed:
            return self.preview, self.version

    def news(self, version: int | None) -> bytes:
        """The number of the state and where it is seen; with a `version` it waits a while for another one."""
        with self.changed:
            if version is not None:
                self.changed.wait_for(lambda: self.version != version, _WAIT)
            shown = self.preview.shown
            told = {"version": self.version, **(shown._asdict() if shown else {"url": None, "anchor": "", "also": []})}
        return json.dumps(told).encode()


def serve(
    port: int,
    first: Preview,
    saves: Saves,
    make: Callable[[tuple[str, ...]], Preview | str],
    say: Callable[[str], Any],
    open_browser: bool = False,
) -> int:
    """Serves until it is interrupted, the `first` state to begin with, read after `saves` began to listen.

    `make` reads the manual anew after every save; it gives a sentence where there is nothing to show, and then the last
    state stays.
    """
    state = _State(first)
    server = _server(state, port, say)
    if server is None:
        return 2
    address = f"http://{HOST}:{server.server_address[1]}/"
    say(f"The manual is at {address} (stop with Ctrl+C)")
    _tell(state.preview, say)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    if open_browser:
        webbrowser.open(address)
    try:
        for changed in saves:
            _show(state, changed, make, say)
    finally:
        server.shutdown()
        server.server_close()
    return 0


def _show(
    state: _State, changed: tuple[str, ...], make: Callable[[tuple[str, ...]], Preview | str], say: Callable[[str], Any]
) -> None:
    """The state after a save; where there is none the last one, which says why."""
    try:
        fresh = make(changed)
    except Exception as error:  # the author goes on writing, whatever it was
        fresh = f"The manual could not be made: {type(error).__name__}: {error}"
    if isinstance(fresh, str):
        say(fresh)
        state.show(replace(state.preview, trouble=fresh, shown=None))
    else:
        state.show(fresh)
        _tell(fresh, say)


def _server(state: _State, port: int, say: Callable[[str], Any]) -> ThreadingHTTPServer | None:
    try:
        return _Server((HOST, port), _handler(state))
    except OSError as error:
        say(f"Port {port} cannot be used ({error.strerror}). Name another one with --port, or --port 0 for any.")
        return None


class _Server(ThreadingHTTPServer):
    """A browser that went away in the middle of an answer is no news."""

    #: Elsewhere it takes a port that was just let go; on Windows two servers would share one, and none would be told.
    allow_reuse_address = sys.platform != "win32"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Told only where it is not the connection."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)


def _tell(preview: Preview, say: Callable[[str], Any]) -> None:
    findings = preview.manual.findings
    errors = sum(one.severity == "error" for one in findings)
    others = len(findings) - errors
    words = f"{errors or 'no'} error{'' if errors == 1 else 's'}"
    if others:
        words += f", {others} other finding{'' if others == 1 else 's'}"
    say(f"{time.strftime('%H:%M:%S')}  {words}")


def _failed(error: Exception, version: int) -> bytes:
    """What is shown in the place of a page that could not be made; it reloads with the next change as well."""
    said = escape(f"{type(error).__name__}: {error}")
    return f"<body><h1>This page could not be made</h1><p>{said}</p>{watching(version)}".encode()


def _handler(state: _State) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        """Answers one request after the other of a connection."""

        protocol_version = "HTTP/1.1"

        def do_GET(self) -> None:
            if self.headers.get("Host", "").partition(":")[0] not in _NAMES:
                return self._send(403, b"The preview is for this machine alone.", "text/plain; charset=utf-8")
            asked = urlsplit(self.path)
            path = unquote(asked.path)
            if path == POLL:
                return self._send(200, state.news(_waits_for(asked.query)), "application/json")
            preview, version = state.now()
            try:
                found = preview.answer(path.lstrip("/") or "index.html", version)
                missing = None if found else preview.answer("404.html", version)
            except Exception as error:
                return self._send(500, _failed(error, version), "text/html; charset=utf-8")
            if found is not None:
                return self._send(200, *found)
            return self._send(404, *(missing or (b"There is no such page.", "text/plain; charset=utf-8")))

        def _send(self, status: int, content: bytes, kind: str) -> None:
            self.send_response(status)
            self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(content)))
            self.send_header("Cache-Control", "no-store")
            self.end_headers()
            self.wfile.write(content)

        def log_message(self, format: str, *args: Any) -> None:
            """Requests are not logged: the author wants to see findings."""

    return Handler


def _waits_for(query: str) -> int | None:
    """The state that a page shows, where it wants to wait for another one."""
    asked = parse_qs(query, keep_blank_values=True)
    version = asked.get("version", [""])[0]
    return int(version) if "wait" in asked and version.isdecimal() else None
