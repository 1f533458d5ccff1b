"""Which files become the site: what is left out, which pages are added, and what the navigation lists."""

import posixpath
from collections.abc import Callable, Iterable, Sequence
from html import escape
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel, file_sort_key
from mkdocs.utils import dirname_to_title, nest_paths

from ..pages.body import Page, Picture
from ..pictures.kinds import kind_of

#: A photo as the camera wrote it names the place and the hour; pages carry pictures made of it.
PHOTOS = (
    *(".jpg", ".jpeg", ".jpe", ".jfif", ".png", ".webp", ".gif", ".bmp"),
    *(".heic", ".heif", ".avif", ".tif", ".tiff", ".dng", ".raw"),
)
_OF_CAMERAS = frozenset({"JPEG", "PNG", "WebP", "GIF", "BMP", "HEIC", "AVIF", "TIFF or raw"})
SOURCES = (".yml", ".yaml")
#: Parts of the theme that serve its own search.
_UNUSED = ("assets/javascripts/lunr/", "assets/javascripts/workers/")
HOME = "index.html"


def source_uri(url: str) -> str:
    """The name under which MkDocs knows a made page: "x/y.html" → "x/y.md"."""
    return posixpath.splitext(url)[0] + ".md"


def leave_out(files: Files, config: MkDocsConfig) -> None:
    """Take from the list what is never published."""
    for file in list(files):
        if file.src_dir == config.docs_dir:
            unwanted = file.src_uri.lower().endswith(SOURCES + PHOTOS) or _is_photo(file)
        else:
            unwanted = file.src_uri.startswith(_UNUSED)
        if unwanted:
            files.remove(file)


def _is_photo(file: File) -> bool:
    """Whether a file is a picture of a camera under a name that does not say so: a copy `plug.jpg.bak` is one."""
    if file.is_documentation_page() or file.abs_src_path is None:
        return False
    try:
        with open(file.abs_src_path, "rb") as stream:
            return kind_of(stream.read(64)) in _OF_CAMERAS
    except OSError:
        return False  # whoever copies it says why it cannot be read


def add(files: Files, pages: Sequence[Page], config: MkDocsConfig) -> tuple[dict[str, Page], list[str]]:
    """Add the pages to the list; returns them by their name there, and what two files claim at once.

    A manual's own `index.md` takes the place of a made home page: what a home page is made for is to
    be there.
    """
    taken = {file.dest_uri.casefold(): file for file in files if file.inclusion.is_included()}
    added: dict[str, Page] = {}
    clashes: list[str] = []
    for page in pages:
        other = taken.get(page.url.casefold())
        if other is not None and page.url == HOME:
            continue
        if other is not None:
            clashes.append(
                f"procedures/{other.src_uri} and the page “{page.title}” have the same address, {page.url}. "
                f"Rename procedures/{other.src_uri}."
            )
            files.remove(other)
        file = File.generated(config, source_uri(page.url), content="", inclusion=InclusionLevel.NOT_IN_NAV)
        files.append(file)
        added[file.src_uri] = page
    _add_scripts(files, pages, config)
    _add_pictures(files, pages, config)
    return added, clashes


def _add_scripts(files: Files, pages: Sequence[Page], config: MkDocsConfig) -> None:
    """Add the scripts that are made for pages, each once; those of the theme are there already.

    As bytes: a text would get the line ends of the system on which the site is made.
    """
    made = {script.url: script.make for page in pages for script in page.scripts if script.make is not None}
    for url, make in made.items():
        files.append(File.generated(config, url, content=make().encode()))


def picture_urls(pages: Iterable[Page]) -> frozenset[str]:
    """The addresses of the pictures that the pages show; another picture has another address."""
    return frozenset(picture.url for page in pages for picture in page.pictures)


def _add_pictures(files: Files, pages: Sequence[Page], config: MkDocsConfig) -> None:
    """Add the pictures of the pages, each once."""
    for picture in {picture.url: picture for page in pages for picture in page.pictures}.values():
        files.append(_Late.of(picture, config))


class _Late(File):
    """A picture that is made when its bytes are asked for: in the preview that is when it is seen."""

    make: Callable[[], bytes]

    @classmethod
    def of(cls, picture: Picture, config: MkDocsConfig) -> File:
        """The file of a picture; no pattern of the configuration keeps it out of the site."""
        made = cls.generated(config, picture.url, content=b"", inclusion=InclusionLevel.INCLUDED)
        vars(made)["make"] = picture.make
        return made

    @property  # type: ignore[misc]
    def content_bytes(self) -> bytes:
        """The bytes of the picture."""
        return self.make()

    def copy_file(self, dirty: bool = False) -> None:
        """Write them into the site."""
        target = Path(self.abs_dest_path)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(self.make())


def navigation(files: Files, pages: dict[str, Page]) -> list[object]:
    """The navigation of a manual that sets none: the home page, the index pages, then the free pages.

    Procedures are never listed: with a thousand of them every page would carry a list of them all.
    """
    free = sorted((file for file in files.documentation_pages() if file.src_uri not in pages), key=file_sort_key)
    home = [file.src_uri for file in free if file.dest_uri == HOME]
    indexes = [uri for uri in pages if "/" not in uri]
    indexes.sort(key=lambda uri: pages[uri].url != HOME)
    nested = nest_paths(file.src_uri for file in free if file.src_uri not in home)
    return [*home, *indexes, *(_by_vehicle(entry, pages) for entry in nested)]


def _by_vehicle(entry: object, pages: dict[str, Page]) -> object:
    """The free pages in the folder of a vehicle stand under its name, not under that of the folder."""
    if not isinstance(entry, dict):
        return entry
    made = {uri.removesuffix("/vehicle.md"): page.title for uri, page in pages.items() if uri.endswith("/vehicle.md")}
    named = {dirname_to_title(folder): escape(title, quote=False) for folder, title in made.items()}
    return {named.get(title, title): below for title, below in entry.items()}


def title_html(page: Page) -> str:
    """A title as MkDocs keeps titles: as HTML."""
    return escape(page.title, quote=False)
