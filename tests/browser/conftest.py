"""What the tests in a browser open unless they say otherwise: the site of the demo manual."""

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def site(demo_site: Path) -> Path:
    """The folder of the site; nothing is changed there."""
    return demo_site
