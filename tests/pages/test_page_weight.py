"""What a procedure's page weighs when it is sent."""

import gzip
from pathlib import Path

from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.pages.all import all_pages

ROOT = Path(__file__).resolve().parents[2]
MOST = 150_000


def test_every_procedure_of_the_demo_is_light_with_its_drawings() -> None:
    """At most 150,000 bytes by gzip -9: the page with its drawings and its data, without photos, styles and scripts."""
    manual = load_manual(ROOT)
    shell = open_shell(ROOT / "mkdocs.yml", all_pages(manual), manual.findings)
    sizes = {name: len(gzip.compress(shell.page_html(f"{name}.html").encode(), 9)) for name in manual.procedures}

    assert len(sizes) >= 9
    assert {} == {name: size for name, size in sizes.items() if size > MOST}
