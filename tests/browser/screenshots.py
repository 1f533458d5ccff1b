"""Pictures of the demo manual at phone, tablet and desktop size, light and dark, and in print, in `out/`.

Also the picture that the README shows. Run by `python tools.py screenshots`.
"""

import os
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests"))  # it is run as a script
from demo_kit import demo_shell  # noqa: E402

OUT = ROOT / "out"
PAGES = (
    "index", "vehicles", "codes", "limits", "torques", "tools", "larkway-m12/vehicle", "larkway-m12/isolate-traction",
    "larkway-m12/find-insulation-fault", "thistledown-v4/starter-generator-no-output", "granbrook-t8/vehicle",
    "granbrook-t8/energy", "granbrook-t8/review", "larkway-m12/isolate-traction.briefing",
    "larkway-m12/find-insulation-fault.briefing", "calculators", "calculators/discharge",
    "systems", "parts", "commands", "thistledown-v4/vehicle", "larkway-m12/how-the-traction-system-works", "book/photos",
)  # fmt: skip
SIZES = {"phone": (390, 844), "tablet": (820, 1180), "desktop": (1440, 900)}
_ARGUMENTS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run")


def main() -> None:
    """Renders the demo into a temporary folder and takes the pictures."""
    OUT.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = Path(folder) / "site"
        demo_shell().write(site)
        browser = playwright.chromium.launch(
            executable_path=os.environ.get("BAYLEAF_BROWSER", "chromium"), args=list(_ARGUMENTS)
        )
        for page in PAGES:
            address, name = f"{site.as_uri()}/{page}.html", page.replace("/", "-")
            for size, (width, height) in SIZES.items():
                for scheme in ("light", "dark"):
                    tab = browser.new_page(viewport={"width": width, "height": height}, color_scheme=scheme)
                    tab.goto(address)
                    tab.screenshot(path=OUT / f"{name}-{size}-{scheme}.png")
                    tab.close()
            tab = browser.new_page()
            tab.goto(address)
            tab.pdf(path=OUT / f"{name}.pdf", format="A4", print_background=True)
            tab.close()
        _picture_for_readme(browser, site)
        browser.close()
    sys.stdout.write(f"The pictures are in {OUT}\n")


def _picture_for_readme(browser, site: Path) -> None:
    """A step of the demo, as wide as a tablet."""
    tab = browser.new_page(viewport={"width": 900, "height": 760})
    tab.goto(f"{site.as_uri()}/larkway-m12/isolate-traction.html#step-prove")
    tab.wait_for_timeout(600)  # the title in the bar slides in
    tab.screenshot(path=ROOT / ".github" / "page.png")
    tab.close()


if __name__ == "__main__":
    main()
