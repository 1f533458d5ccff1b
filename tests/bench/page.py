"""What the pages of the demo weigh, and how soon a verdict stands there on a slow device: `python tests/bench/page.py`.

`bench.py` runs it last. A verdict is timed in Chromium with the processor slowed four times, over the readings of the longest
page, from the event of the key until the words and the mark are laid out. The figures are those of this machine and its load.
"""

import gzip
import os
import shutil
import statistics
import tempfile
from pathlib import Path

from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.pages.all import all_pages

ROOT = Path(__file__).resolve().parents[2]
SLOWED = 4
GOAL_MS = 50
GOAL_BYTES = 150_000
_ARGUMENTS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run")

_TIMED = """async () => {
  const times = [];
  for (const step of bayleafJob.desk.data.steps.filter((one) => one.readings)) {
    const section = document.getElementById(step.anchor);
    const input = section.querySelector(".job-reading input");
    section.scrollIntoView();
    await new Promise((done) => setTimeout(done, 100));
    input.value = "3";
    const begun = performance.now();
    input.dispatchEvent(new Event("input", { bubbles: true }));
    section.querySelector(".job-verdict").getBoundingClientRect();
    times.push(performance.now() - begun);
  }
  return times;
}"""


def main() -> None:
    """Renders the demo into a temporary folder and prints both."""
    manual = load_manual(ROOT)
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        open_shell(ROOT / "mkdocs.yml", all_pages(manual), manual.findings).write(site)
        sizes = {name: packed(site / f"{name}.html") for name in manual.procedures}
        longest = max(sizes, key=lambda name: sizes[name])
        verdict = "holds" if sizes[longest] <= GOAL_BYTES else "FAILS"
        print(f"goal: a procedure's page at most {GOAL_BYTES:,} bytes by gzip -9, with its drawings: {verdict}")
        for name, size in sorted(sizes.items(), key=lambda item: -item[1]):
            print(f"    {size:>9,}  {name}")
        _print_verdicts(site / f"{longest}.html")


def packed(page: Path) -> int:
    """The bytes of a page as gzip -9 packs it."""
    return len(gzip.compress(page.read_bytes(), 9))


def _print_verdicts(page: Path) -> None:
    browser = os.environ.get("BAYLEAF_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome")
    if browser is None:
        print("verdicts: not measured: no Chromium in the path")
        return
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=browser, args=list(_ARGUMENTS))
        tab = started.new_page(viewport={"width": 390, "height": 844})
        tab.set_default_timeout(120_000)
        tab.goto(page.as_uri())
        tab.get_by_label("Job number of the workshop").fill("2026-0001")
        tab.get_by_role("button", name="Begin the job").click()
        tab.context.new_cdp_session(tab).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        times = sorted(tab.evaluate(_TIMED))
        started.close()
    middle, most = statistics.median(times), times[-1]
    late = sum(time > GOAL_MS for time in times)
    print(f"goal: a verdict within {GOAL_MS} ms of the key, processor slowed {SLOWED} times, {len(times)} steps of the "
          f"longest page: {'holds' if not late else 'FAILS'} (median {middle:.0f} ms, longest {most:.0f} ms, {late} late)")  # fmt: skip


if __name__ == "__main__":
    main()
