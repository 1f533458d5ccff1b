"""What tests that open pages share: a browser, and a server of this machine alone."""

import functools
import http.server
import os
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

_ARGUMENTS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run")


@pytest.fixture(scope="session")
def browser() -> Iterator[object]:
    """Chromium, the one of the system."""
    from playwright.sync_api import sync_playwright

    path = os.environ.get("BAYLEAF_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome")
    if path is None:
        pytest.fail("These tests drive a browser: install Chromium, or run them by `python tools.py test`.")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=list(_ARGUMENTS))
        yield started
        started.close()


@pytest.fixture
def serve() -> Iterator[object]:
    """A function that serves a folder on 127.0.0.1 and returns its address."""
    servers = []

    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *_: object) -> None:
            """Say nothing."""

    def start(folder: Path) -> str:
        handler = functools.partial(Quiet, directory=str(folder))
        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        return f"http://127.0.0.1:{server.server_port}/"

    yield start
    for server in servers:
        server.shutdown()
        server.server_close()
