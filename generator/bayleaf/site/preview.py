"""A small local server that shows the manual while it is written.

Pages are made when they are asked for. Every page gets a few lines of script that ask whether anything was
saved since, and reload if so: plain polling, which works in every browser and through every sleep of a laptop.
"""

import json
import mimetypes
import os
import sys
import threading
import time
import webbrowser
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from html import escape
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import unquote, urlsplit

from ..diagnostics.finding import Finding
from . import offline

#: Only this machine can ask: the manual of a workshop is not for its whole network while it is being written.
HOST = "127.0.0.1"
#: By these names alone it may be asked: another one was made to lead here by a page of somebody else.
_NAMES = frozenset((HOST, "localhost"))
_POLL = "/.bayleaf/version"
_LOOK_EVERY = 0.2

_SCRIPT = """
<script>
(function () {
  var seen = null;
  function ask() {
    fetch("POLL", {cache: "no-store"}).then(function (answer) { return answer.json(); }).then(function (now) {
      if (seen !== null && now.version !== seen) { location.reload(); }
      seen = now.version;
    }).catch(function () {}).finally(function () { setTimeout(ask, 250); });
  }
  ask();
})();
</script>
</body>""".replace("POLL", _POLL)


#: Names, times and sizes of files.
Stamp = tuple[tuple[str, int, int], ...]


class Shell(Protocol):
    """What the server needs of the shell around the pages."""

    @property
    def urls(self) -> tuple[str, ...]: ...
    def page_html(self, url: str) -> str: ...
    def asset(self, url: str) -> bytes | None: ...
    def search_pieces(self) -> dict[str, str]: ...


@dataclass
class Preview:
    """One state of the manual, ready to be shown."""

    shell: Shell
    findings: Sequence[Finding]
    pieces: dict[str, str] | None = field(default=None)

    def answer(self, url: str) -> tuple[bytes, str] | None:
        """The content and the type of a page or file; None where there is none."""
        if url in self.shell.urls:
            html = self.shell.page_html(url).replace("</body>", _SCRIPT, 1)
            return html.encode("utf-8"), "text/html; charset=utf-8"
        found = self.shell.asset(url)
        if found is not None:
            return found, mimetypes.guess_type(url)[0] or "application/octet-stream"
        if url == offline.WORKER:
            return offline.RETIRED.encode("utf-8"), "text/javascript; charset=utf-8"
        if url.endswith(".js"):
            if self.pieces is None:
                self.pieces = self.shell.search_pieces()
            if url in self.pieces:
                return self.pieces[url].encode("utf-8"), "text/javascript; charset=utf-8"
        return None


@dataclass
class _State:
    """What all requests share; `version` counts the states of the manual.

    It counts on from the time, so that a page that outlived the server before sees something new.
    """

    preview: Preview
    version: int = field(default_factory=lambda: int(time.time()))
    lock: threading.Lock = field(default_factory=threading.Lock)


def serve(
    folder: Path,
    port: int,
    first: Preview,
    seen: Stamp,
    make: Callable[[], Preview | str],
    say: Callable[[str], Any],
    open_browser: bool = False,
) -> int:
    """Serves until it is interrupted, the `first` state to begin with, read when the files were as `seen`.

    `make` reads the manual anew after every change of a file; it gives a sentence where there is nothing to show,
    and then the last state stays.
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
        _watch(folder, state, seen, make, say)
    finally:
        server.shutdown()
        server.server_close()
    return 0


def _server(state: _State, port: int, say: Callable[[str], Any]) -> ThreadingHTTPServer | None:
    try:
        return _Server((HOST, port), _handler(state))
    except OSError as error:
        say(f"Port {port} cannot be used ({error.strerror}). Name another one with --port, or --port 0 for any.")
        return None


class _Server(ThreadingHTTPServer):
    """A browser that went away in the middle of an answer is no news."""

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Told only where it is not the connection."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)


def _watch(
    folder: Path, state: _State, seen: Stamp, make: Callable[[], Preview | str], say: Callable[[str], Any]
) -> None:
    """Looks whether a file has changed, and makes the manual anew."""
    while True:
        time.sleep(_LOOK_EVERY)
        now = stamp(folder)
        if now == seen:
            continue
        seen = now
        try:
            fresh = make()
        except Exception as error:  # the author goes on writing, whatever it was
            fresh = f"The manual could not be made: {type(error).__name__}: {error}"
        if isinstance(fresh, str):
            say(fresh)
            continue
        with state.lock:
            state.preview, state.version = fresh, state.version + 1
        _tell(fresh, say)


def stamp(folder: Path) -> Stamp:
    """Everything that the manual is made from, as it is now. Taken before reading, so that no change is missed."""
    files = [folder / "mkdocs.yml"]
    for top in ("procedures", "records"):
        for root, _, names in os.walk(folder / top):
            files += [Path(root, name) for name in names]
    found = []
    for path in files:
        try:
            facts = path.stat()
        except OSError:  # gone while we looked, or an editor's lock that leads nowhere
            continue
        found.append((path.as_posix(), facts.st_mtime_ns, facts.st_size))
    return tuple(sorted(found))


def _tell(preview: Preview, say: Callable[[str], Any]) -> None:
    errors = sum(one.severity == "error" for one in preview.findings)
    others = len(preview.findings) - errors
    words = f"{errors or 'no'} error{'' if errors == 1 else 's'}"
    if others:
        words += f", {others} other finding{'' if others == 1 else 's'}"
    say(f"{time.strftime('%H:%M:%S')}  {words}")


def _failed(error: Exception) -> bytes:
    """What is shown in the place of a page that could not be made; it reloads with the next change as well."""
    said = escape(f"{type(error).__name__}: {error}")
    return f"<body><h1>This page could not be made</h1><p>{said}</p>{_SCRIPT}".encode()


def _handler(state: _State) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        """Answers one request."""

        def do_GET(self) -> None:
            if self.headers.get("Host", "").partition(":")[0] not in _NAMES:
                return self._send(403, b"The preview is for this machine alone.", "text/plain; charset=utf-8")
            path = unquote(urlsplit(self.path).path)
            if path == _POLL:
                return self._send(200, json.dumps({"version": state.version}).encode(), "application/json")
            url = path.lstrip("/") or "index.html"
            try:
                with state.lock:
                    found = state.preview.answer(url)
                    missing = None if found else state.preview.answer("404.html")
            except Exception as error:
                return self._send(500, _failed(error), "text/html; charset=utf-8")
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
