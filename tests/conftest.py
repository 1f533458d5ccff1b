"""What tests share that open pages or run scripts: a browser, a server of this machine alone, and Node."""

import functools
import gc
import http.server
import json
import os
import shutil
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import demo_kit
import hypothesis
import pytest
from bayleaf import manual, manual_files
from bayleaf.loading.load import load
from bayleaf.manual import Manual
from thinned import IS_CAMPAIGN

# Whole manuals are kept for many tests: to walk them all again and again for rubbish took a tenth of the time.
gc.set_threshold(50_000, 20, 100)

# A manual of a test differs from the last one in a file or two: the others are not read again.
_load = functools.lru_cache(maxsize=128)(load)
for _module in (manual, manual_files):
    _module.load = _load  # type: ignore[attr-defined]


@pytest.fixture
def reading_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every file is read, also one that was read before."""
    for module in (manual, manual_files):
        monkeypatch.setattr(module, "load", load)


# Half of what Hypothesis tries by itself: where a property needs more, its test says how many.
# How long it takes is no matter: a machine may be busy.
_UNTIMED: dict[str, Any] = {"deadline": None, "suppress_health_check": [hypothesis.HealthCheck.too_slow]}
hypothesis.settings.register_profile("short", max_examples=50, **_UNTIMED)
hypothesis.settings.register_profile("campaign", **_UNTIMED)
hypothesis.settings.load_profile("campaign" if IS_CAMPAIGN else "short")


@pytest.fixture(scope="session")
def demo() -> Manual:
    """The demo manual."""
    return demo_kit.demo()


#: Tenths of a second.
_LONGEST_WRITING = 1200


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of its site, made by the first process that asks; the others wait for it. Nothing is changed there."""
    shared = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    site, begun = shared / "demo-site", shared / "demo-site-begun"
    try:
        begun.mkdir()
    except FileExistsError:
        for _ in range(_LONGEST_WRITING):
            if site.is_dir():
                return site
            time.sleep(0.1)
        site = tmp_path_factory.mktemp("demo") / "site"  # whoever began has come to an end
    demo_kit.demo_shell().write(site.with_name("demo-site-made"))
    return site.with_name("demo-site-made").rename(site)


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
        # Else the whole site is kept anew for each: tests of that say `service_workers="allow"`.
        for way in ("new_context", "new_page"):
            setattr(started, way, functools.partial(getattr(started, way), service_workers="block"))
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


#: Numbers that JSON lacks come back as texts.
_PRINT = """
process.stdout.write(JSON.stringify(answer, (_, one) =>
  typeof one === "number" && !Number.isFinite(one) ? { number: String(one) } : one));
"""


@pytest.fixture(scope="session")
def node() -> Callable[[str], Any]:
    """A function that runs JavaScript in Node, all in one process, and gives what it leaves in `answer`."""
    path = os.environ.get("BAYLEAF_NODE") or shutil.which("node")
    if path is None:
        pytest.fail("These tests run JavaScript: install Node.js so that `node` is in the path.")

    def run(program: str) -> Any:
        text = f"let answer;\n{program}\n{_PRINT}"
        done = subprocess.run([path, "-"], input=text, capture_output=True, text=True, encoding="utf-8")
        assert done.returncode == 0, done.stderr[-3000:]
        return json.loads(done.stdout, object_hook=_number)

    return run


def _number(found: dict[str, Any]) -> Any:
    return float(found["number"].replace("Infinity", "inf")) if set(found) == {"number"} else found
