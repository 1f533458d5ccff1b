"""One state of the manual as it is shown while somebody writes it.

Pages are made when they are asked for. Every page gets what its author is to know, and a script that waits for the next
save.
"""

import json
import threading
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Protocol

from ..manual import Manual
from ..pictures.published import names
from . import offline, search_index
from .media_types import media_type
from .shown import Shown, bar, notes, page_of

#: Where a page asks whether anything was saved since.
POLL = "/.bayleaf/version"
_BODY = '<article class="md-content__inner md-typeset" id="content">'
_HERE = Path(__file__).parent
_STYLE = (_HERE / "preview.css").read_text("utf-8")
_SCRIPT = (_HERE / "preview.js").read_text("utf-8").replace("POLL", POLL)
_PLACES = (_HERE / "preview_places.js").read_text("utf-8")


class Shell(Protocol):
    """What the server needs of the shell around the pages."""

    @property
    def urls(self) -> tuple[str, ...]: ...
    def page_html(self, url: str) -> str: ...
    def asset(self, url: str) -> bytes | None: ...
    def search_pieces(self) -> dict[str, str]: ...


@dataclass
class Preview:
    """One state of the manual, ready to be shown.

    `shown` is where the file saved last is seen, None where pages stay as they are; `trouble` is what kept a newer
    state from being shown. `lock` is held while a page is made: states may share a shell.
    """

    shell: Shell
    manual: Manual
    saved: str | None = None
    shown: Shown | None = None
    trouble: str | None = None
    lock: Any = field(default_factory=threading.Lock)
    pieces: dict[str, str] | None = None

    def answer(self, url: str, version: int = 0) -> tuple[bytes, str] | None:
        """The content and the type of a page or file; None where there is none."""
        with self.lock:
            if url in self.shell.urls:
                return self._page(url, version), "text/html; charset=utf-8"
            found = self.shell.asset(url)
            if found is not None:
                if url.endswith(".html"):
                    found = found.replace(b"</body>", watching(version).encode("utf-8"), 1)
                return found, media_type(url)
            if url == offline.WORKER:
                return offline.RETIRED.encode("utf-8"), "text/javascript; charset=utf-8"
            if url.startswith(f"{search_index.FOLDER}/"):  # only the search needs every page
                if self.pieces is None:
                    self.pieces = self.shell.search_pieces()
                if url in self.pieces:
                    return self.pieces[url].encode("utf-8"), "text/javascript; charset=utf-8"
        return None

    def _page(self, url: str, version: int) -> bytes:
        files = tuple(file for file in self.manual.by_file if page_of(file, self.manual) == url)
        head = _BODY + notes(self.manual, url, files)
        foot = bar(self.manual, url, self.saved, self.trouble) + watching(version)
        html = self.shell.page_html(url).replace(_BODY, head, 1)
        if 'class="bl-photo-open"' in html:
            foot = f"<script>{_PLACES.replace('PHOTO_SIZES', json.dumps(self._photo_sizes(html)))}</script>{foot}"
        return html.replace("</body>", foot, 1).encode("utf-8")

    def _photo_sizes(self, html: str) -> dict[str, tuple[int, int]]:
        """Width and height of the originals of the photos on a page, by what the names of their files begin with."""
        manual, found = self.manual, {}
        paths = {photo.path(one.folder) for one in manual.vehicles.values() for photo in one.photos}
        paths |= {photo.path(one.folder) for one in manual.procedures.values() for photo in one.photos}
        for path in paths:
            seen = manual.album.seen(path)
            name = names(seen)[0].partition("-")[0] if seen is not None and names(seen) else None
            if name is not None and seen is not None and name in html:
                found[name] = seen.width, seen.height
        return found


def watching(version: int) -> str:
    """What ends a page: it waits for a state newer than the one that it shows."""
    script = _SCRIPT.replace("VERSION", str(version))
    return f"<style>{_STYLE}</style><script>{script}</script></body>"
