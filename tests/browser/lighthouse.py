"""What Lighthouse says of the pages of the demo, on a slowed phone: performance, accessibility, best practices.

`python tests/browser/lighthouse.py [--site FOLDER] [PAGE …]`; `python tools.py screenshots` runs it last. It needs the npm
package `lighthouse` (`BAYLEAF_LIGHTHOUSE` names its `cli/index.js`, else it is looked for in the path); where that is absent it
says so and nothing is measured. The figures are those of this machine and are never asserted. No rule is switched off.
"""

import argparse
import functools
import gzip
import http.server
import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests"))  # it is run as a script
from demo_kit import demo_shell  # noqa: E402

PAGES = (
    "index.html", "larkway-m12/vehicle.html", "thistledown-v4/starter-generator-no-output.html",
    "larkway-m12/find-insulation-fault.html", "larkway-m12/find-insulation-fault.briefing.html", "codes.html",
    "calculators.html", "calculators/discharge.html", "granbrook-t8/energy.html", "book/how-to-write.html",
)  # fmt: skip
CATEGORIES = ("performance", "accessibility", "best-practices")
GOAL = 95
_FLAGS = "--headless=new --no-sandbox --disable-background-networking"


def main(arguments: list[str] | None = None) -> None:
    """Renders the demo if no site is given, serves it on this machine, compressed as hosts do, measures, prints."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--site", type=Path)
    parser.add_argument("--plain", action="store_true", help="serve without compression")
    parser.add_argument("--runs", type=int, default=3, help="the median counts")
    parser.add_argument("pages", nargs="*", default=PAGES)
    told = parser.parse_args(arguments)
    command = command_of()
    if command is None:
        print("Lighthouse: not measured: npm's lighthouse is absent (`npm install lighthouse@12`)")
        return
    with tempfile.TemporaryDirectory() as folder:
        site = told.site or _rendered(Path(folder) / "site")
        handler = functools.partial(_Quiet if told.plain else _Compressed, directory=str(site))
        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
        server.handle_error = lambda *_: None  # type: ignore[method-assign]  # a browser that ends breaks off
        threading.Thread(target=server.serve_forever, daemon=True).start()
        served = "without compression" if told.plain else "compressed by gzip"
        print(
            f"Lighthouse {_version(command)}, slowed phone, http/1.1 on this machine, {served}, median of {told.runs}"
        )
        print(f"{'':<52}" + "".join(f"{name:>16}" for name in CATEGORIES) + "  processor  below 1")
        for page in told.pages:
            address = f"http://127.0.0.1:{server.server_port}/{page}"
            reports = [_measured(command, address, Path(folder)) for _ in range(told.runs)]
            _print(page, [one for one in reports if one is not None])
        server.shutdown()
        server.server_close()


def command_of() -> list[str] | None:
    """How Lighthouse is called; None where it is not there."""
    named = os.environ.get("BAYLEAF_LIGHTHOUSE")
    if named:
        return [os.environ.get("BAYLEAF_NODE", "node"), named]
    found = shutil.which("lighthouse")
    return [found] if found else None


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


class _Compressed(_Quiet):
    """Text compressed as it is sent, with a level that hosts use."""

    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """A file of the site."""
        path = Path(self.translate_path(self.path))
        if not path.is_file():
            self.send_error(404)
            return
        data = path.read_bytes()
        is_text = path.suffix in (".html", ".css", ".js", ".json", ".svg", ".xml")
        data = gzip.compress(data, 6) if is_text else data
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(path)))
        if is_text:
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)


def _rendered(site: Path) -> Path:
    demo_shell().write(site)
    return site


def _version(command: list[str]) -> str:
    return subprocess.run([*command, "--version"], capture_output=True, text=True, check=True).stdout.strip()


def _measured(command: list[str], address: str, folder: Path) -> dict | None:
    report = folder / "report.json"
    report.unlink(missing_ok=True)
    browser = os.environ.get("BAYLEAF_BROWSER") or shutil.which("chromium") or ""
    subprocess.run(
        [*command, address, "--quiet", "--output=json", f"--output-path={report}", f"--chrome-flags={_FLAGS}",
         f"--only-categories={','.join(CATEGORIES)}"],
        check=False, env={**os.environ, "CHROME_PATH": browser}, capture_output=True,
    )  # fmt: skip
    return json.loads(report.read_text(encoding="utf-8")) if report.is_file() else None


def _print(page: str, reports: list[dict]) -> None:
    if not reports:
        print(f"{page:<52}  not measured: Lighthouse gave no report", flush=True)
        return
    scores = [
        round(100 * statistics.median(one["categories"][name]["score"] or 0 for one in reports)) for name in CATEGORIES
    ]
    audits = reports[-1]["audits"].values()
    weak = sorted(
        {one["id"] for one in audits if one["scoreDisplayMode"] in ("binary", "numeric") and (one["score"] or 0) < 0.9}
    )
    # How fast the processor was meanwhile, by Lighthouse's own work: the same page has less where this falls.
    speed = round(statistics.median(one["environment"]["benchmarkIndex"] for one in reports))
    marks = "".join(f"{score:>14}{' ' if score >= GOAL else '!'} " for score in scores)
    print(f"{page:<52}{marks}  {speed:>9}  {', '.join(weak) or '-'}", flush=True)


if __name__ == "__main__":
    main()
