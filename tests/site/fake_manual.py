"""A small manual whose pages are made up, so that the shell around them can be tested by itself."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import yaml
from bayleaf.diagnostics.finding import Finding
from bayleaf.diagnostics.place import Place
from bayleaf.mkdocs_shell import source
from bayleaf.pages.body import Body, Crumb, Heading, Page, SearchRecord
from bayleaf.site.facts import NO_FACTS, ManualFacts, PageFacts

HOOK = '''\
"""A plugin of the user's own: changes content, context and output of every page."""

seen = []


def on_pre_build(config):
    seen.clear()


def on_page_content(html, page, config, files):
    seen.append(page.url)
    return html + f"<p>content of {page.title} at {page.url}</p>"


def on_page_context(context, page, config, nav):
    context["config"].extra["number"] = len(seen)
    return context


def on_post_page(output, page, config):
    return output.replace("</body>", f"<!-- {len(seen)} pages, {page.file.src_uri} --></body>")
'''

#: One pixel, so that a file has the name and the kind of a photo.
PHOTO = bytes.fromhex("ffd8ffe000104a46494600010100000100010000ffd9")


def record(url: str, title: str, kind: str, *exact: str, words: str = "") -> SearchRecord:
    """A search record, in the order in which a test reads best."""
    return SearchRecord(url, title, kind, exact, words)


def page(url: str, title: str, html: str = "", *, search: Sequence[SearchRecord] = ()) -> Page:
    """A page with two headings, a step below the first, and crumbs by its folder."""
    vehicle, _, _ = url.rpartition("/")

    def make() -> Body:
        return Body(
            html=html
            or f'<p>{"Text. " * 20}</p><h2 id="first">First &amp; only</h2><p>One</p>'
            '<h3 id="step-1">Step 1</h3><p>Two</p><h2 id="second">Second</h2><p>Three</p>',
            toc=(Heading(2, "first", "First & only"), Heading(3, "step-1", "Step 1"), Heading(2, "second", "Second")),
            search=tuple(search),
            crumbs=(Crumb("Vehicles", "vehicles.html"), Crumb(vehicle or "Root", None)),
        )

    return Page(url, title, make)


def pages() -> tuple[Page, ...]:
    """Pages at the root, in a folder of a vehicle, and in a folder of rules; one with a title to be escaped."""
    m12 = "larkway-m12"
    return (
        page("vehicles.html", "Vehicles"),
        page(
            "codes.html",
            "Trouble codes",
            search=[
                record("codes.html#P0AA6", "P0AA6 · Insulation fault", "trouble code", "P0AA6", words="isolation lost"),
                record("codes.html#P0A0D-07", "P0A0D-07 · Interlock open", "trouble code", "P0A0D-07"),
            ],
        ),
        page(
            f"{m12}/isolate.html",
            "Beta & <two>",
            search=[
                record(f"{m12}/isolate.html", "Beta & <two>", "procedure", f"{m12}/isolate", words="Isolate the drive"),
                record(f"{m12}/isolate.html#step-1", "Open the interlock", "step", words="tighten to 45 N·m, 2,5 MΩ"),
            ],
        ),
        page(
            f"{m12}/vehicle.html",
            "Larkway M12",
            search=[
                record(f"{m12}/vehicle.html#X210", "X210/3 compressor", "connector", "X210", "X210/3"),
                record(
                    f"{m12}/vehicle.html#pump", "Coolant pump", "part", "LW 447-20 81", words="Pumpe für Kühlmittel"
                ),
            ],
        ),
        page("rules/torque-without-unit.html", "torque-without-unit"),
    )


def facts() -> ManualFacts:
    """What is known of these pages."""
    isolate = PageFacts("Traction system", "Class B, high voltage", "larkway-m12/isolate", "3 of 2026-10-02")
    by_url = {
        "larkway-m12/isolate.html": isolate,
        "larkway-m12/vehicle.html#X210": PageFacts(voltage_class="Class B, high voltage"),
        "larkway-m12/vehicle.html#pump": PageFacts(voltage_class="12 V and 24 V"),
    }
    return ManualFacts(by_url, {"larkway-m12": "Larkway M12"}, date(2026, 10, 2))


def write_manual(folder: Path, **settings: object) -> Path:
    """Write the manual's files; returns its `mkdocs.yml`. `settings` are added to it."""
    files = {
        "procedures/index.md": "# The manual\n\nSee [isolation](larkway-m12/isolate.yml#step-1).\n",
        "procedures/book/voltage.md": "# Voltage & current\n\nÜber die Spannung.\n\n## Class B\n\nMore than 60 V DC.\n",
        "procedures/workshop.yml": "format: 1\n",
        "procedures/larkway-m12/vehicle.yml": "format: 1\n",
        "procedures/larkway-m12/isolate.yml": "format: 1\n",
        "procedures/larkway-m12/diagram.svg": '<svg xmlns="http://www.w3.org/2000/svg"/>',
        "records/job-1.yml": "format: 1\n",
        "hook.py": HOOK,
        "templates/partials/footer.html": "<footer>{{ page.url }} of {{ config.site_name }}</footer>\n",
    }
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    photo = folder / "procedures/larkway-m12/photos/plug.JPG"
    photo.parent.mkdir(exist_ok=True)
    photo.write_bytes(PHOTO)
    config = {
        "site_name": "Bay & Co",
        "docs_dir": "procedures",
        "theme": {"name": "material"},
        "plugins": ["bayleaf"],
        **settings,
    }
    target = folder / "mkdocs.yml"
    target.write_text(yaml.safe_dump(config, sort_keys=False), encoding="utf-8")
    return target


def finding(severity: str = "error", message: str = "proved dead at no step") -> Finding:
    """A finding in the procedure of the manual."""
    place = Place("procedures/larkway-m12/isolate.yml", 12, 5, 12, 20)
    return Finding("work-before-proof", place, message, help="prove_dead: …", severity=severity)  # type: ignore[arg-type]


def given(
    pages: Sequence[Page], findings: Sequence[Finding] = (), facts: ManualFacts = NO_FACTS
) -> Callable[[Path], source.Loaded]:
    """What stands in for reading the manual."""
    return lambda folder: source.Loaded(pages, findings, facts)


def mkdocs_build(
    monkeypatch,
    config_file: Path,
    pages: Sequence[Page],
    findings: Sequence[Finding] = (),
    facts: ManualFacts = NO_FACTS,
    **options,
):
    """As `mkdocs build`, with these pages for the manual's; returns the configuration afterwards."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    monkeypatch.setattr(source, "load", given(pages, findings, facts))
    config = load_config(str(config_file), **options)
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    return config
