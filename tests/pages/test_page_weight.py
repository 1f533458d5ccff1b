"""What a procedure's page weighs when it is sent."""

import gzip
from pathlib import Path

from demo_kit import demo, demo_shell

ROOT = Path(__file__).resolve().parents[2]
MOST = 150_000


def test_every_procedure_of_the_demo_is_light_with_its_drawings() -> None:
    """At most 150,000 bytes by gzip -9: the page with its drawings and its data, without photos, styles and scripts."""
    sizes = {name: len(gzip.compress(demo_shell().page_html(f"{name}.html").encode(), 9)) for name in demo().procedures}

    assert len(sizes) >= 9
    assert {} == {name: size for name, size in sizes.items() if size > MOST}
