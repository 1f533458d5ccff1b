"""What a browser is told that a file of the site is."""

import mimetypes

import pytest
from bayleaf.site.media_types import media_type

TYPES = {
    "assets/job.js": "text/javascript",
    "assets/pages.css": "text/css",
    "404.html": "text/html",
    "manifest.json": "application/json",
    "larkway-m12/diagram.svg": "image/svg+xml",
    "photos/plug-480.webp": "image/webp",
    "photos/plug-480.jpg": "image/jpeg",
    "assets/fonts/a.woff2": "font/woff2",
    "assets/pages.css.map": "application/octet-stream",
}


@pytest.mark.parametrize(("address", "expected"), TYPES.items(), ids=TYPES)
def test_a_type_is_that_of_its_ending(monkeypatch: pytest.MonkeyPatch, address: str, expected: str) -> None:
    """Also where the system has it otherwise, as Windows may for scripts."""
    ending = f".{address.rpartition('.')[2]}"
    for known in (True, False):
        monkeypatch.setitem(mimetypes._db.types_map[known], ending, "text/plain")  # type: ignore[attr-defined]
    assert "text/plain" == mimetypes.guess_type(address)[0]

    assert expected == media_type(address)
