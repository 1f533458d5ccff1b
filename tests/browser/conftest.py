"""What the tests in a browser open unless they say otherwise: the site of the demo manual, on a phone."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from job_kit import PHONE


@pytest.fixture(scope="session")
def site(demo_site: Path) -> Path:
    """The folder of the site; nothing is changed there."""
    return demo_site


@pytest.fixture(params=["server", "folder"])
def base(request: Any, serve: Callable[[Path], str], site: Path) -> str:
    """The address of the site, over http and as a folder."""
    return serve(site) if request.param == "server" else site.as_uri() + "/"


@pytest.fixture
def folder(site: Path) -> str:
    """The address of the site as a folder."""
    return site.as_uri() + "/"


@pytest.fixture
def context(browser: Any) -> Iterator[Any]:
    """A browser of its own, with a clock that can be put forward; no script may fail in it."""
    made = browser.new_context(viewport=PHONE, has_touch=True, accept_downloads=True)
    made.set_default_timeout(30_000)
    faults: list[str] = []
    made.on("weberror", lambda found: faults.append(str(found.error)))
    yield made
    made.close()
    assert [] == faults
