"""Printing by a Chromium that is on the machine: the browser that technicians' pages are printed with in any case."""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

#: What names the browser, before all else.
VARIABLE = "BAYLEAF_BROWSER"
_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge", "microsoft-edge")
_MAC = (
    "Google Chrome.app/Contents/MacOS/Google Chrome",
    "Chromium.app/Contents/MacOS/Chromium",
    "Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
)
_WINDOWS = (r"Google\Chrome\Application\chrome.exe", r"Microsoft\Edge\Application\msedge.exe")
#: A manual of a thousand procedures may take a quarter of an hour.
_AT_MOST = 1800


class NoPrinter(Exception):
    """There is no browser that prints, or it failed; one sentence."""


def find_browser() -> str:
    """The path of the browser. Raises `NoPrinter` where there is none."""
    found = next((path for path in _candidates() if path), None)
    if found is None:
        raise NoPrinter(
            "A PDF is printed by Chromium, Chrome or Edge, and none was found. Install one, or set the environment "
            f"variable {VARIABLE} to its path. The pages can be printed from any browser as well."
        )
    return found


def _candidates() -> Iterator[str | None]:
    named = os.environ.get(VARIABLE)
    if named:
        yield shutil.which(named)
    yield from map(shutil.which, _NAMES)
    if sys.platform == "darwin":
        yield from (str(path) for path in (Path("/Applications") / name for name in _MAC) if path.is_file())
    for variable in ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"):
        base = os.environ.get(variable)
        if base:
            yield from (str(path) for path in (Path(base) / name for name in _WINDOWS) if path.is_file())


def print_pdf(html: str, target: Path) -> None:
    """Print a self-contained file of HTML into `target`; the size of its sheets stands in its style."""
    browser = find_browser()
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="bayleaf-") as name:
        work = Path(name)
        page, made = work / "page.html", work / "page.pdf"
        page.write_text(html, encoding="utf-8")
        call = [
            *(browser, "--headless", "--disable-gpu", "--no-first-run", "--disable-background-networking"),
            *("--disable-component-update", "--disable-sync", "--no-pdf-header-footer"),
            *(f"--user-data-dir={work / 'profile'}", f"--print-to-pdf={made}", page.as_uri()),
        ]
        if hasattr(os, "geteuid") and os.geteuid() == 0:
            call.insert(1, "--no-sandbox")  # Chromium refuses to start for root otherwise
        try:
            done = subprocess.run(call, capture_output=True, text=True, errors="replace", timeout=_AT_MOST)
        except (OSError, subprocess.TimeoutExpired) as error:
            raise NoPrinter(f"{browser} could not print: {error}") from error
        if not made.is_file():
            last = (done.stderr.strip().splitlines() or ["it said nothing"])[-1]
            raise NoPrinter(f"{browser} could not print: {last}")
        shutil.move(made, target)
