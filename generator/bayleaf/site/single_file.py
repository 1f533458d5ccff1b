"""One page as one file that asks nothing: styles, drawings, pictures and scripts stand in it.

What leads to other pages of the manual is text in it, since they are not there. A policy in its head forbids every
request, whatever a script or a style of somebody's own may try.
"""

import base64
import posixpath
import re
from collections.abc import Callable
from dataclasses import dataclass
from html import escape
from urllib.parse import unquote

from .media_types import media_type

#: The bytes of a file of the site, by its address; None where there is none.
Asset = Callable[[str], bytes | None]

#: Scripts of the frame, which is not in the file: search, drawer, version.
_OF_THE_FRAME = (
    "assets/search_words.js",
    "assets/search.js",
    "assets/search_dialog.js",
    "assets/shell.js",
    "assets/offline.js",
)
_THEME_SCRIPTS = "assets/javascripts/"

_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data: blob:; font-src data:; "
    "base-uri 'none'; form-action 'none'"
)
_DARK = 'if (matchMedia("(prefers-color-scheme: dark)").matches) document.body.dataset.mdColorScheme = "slate";'

#: What leads nowhere does not look as if it did; the way to the briefing is a button on the page of the manual.
_NO_LINKS = (
    ".md-typeset a:not([href]) "
    "{ color: inherit; text-decoration: none !important; border: 0; background: none; cursor: text; } "
    ".bl-briefing-link { display: none; }"
)

_STYLE = re.compile(r'<link rel="stylesheet" href="([^"]+)"')
_SCRIPT = re.compile(r'<script src="([^"]+)"')
_BODY = re.compile(r"<body([^>]*)>")
_TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)
_LANGUAGE = re.compile(r'<html lang="([^"]*)"')
_OUTWARD = re.compile(r'(<a\b[^>]*?)\shref="(?!#)[^"]*"')
_PICTURE = re.compile(r'(<img\b[^>]*?\ssrc=")([^"]+)(")')
_IMAGE = re.compile(r"<source\b[^>]*>|<img\b[^>]*>")
_SET = re.compile(r'\ssrcset="([^"]*)"')
_OF_A_SET = re.compile(r'\s(?:srcset|sizes|loading)="[^"]*"')
_CSS_URL = re.compile(r"url\(\s*(['\"]?)(?!['\"]?(?:data:|#))([^'\")]*)\1\s*\)")
_SOURCE_MAP = re.compile(r"(?:/\*|//)#\s*sourceMappingURL=[^\s*]*(?:\s*\*/)?")


@dataclass(frozen=True, slots=True)
class Parts:
    """A page taken apart: what of it goes into a file. `styles` and `scripts` are texts, in their order."""

    title: str
    language: str
    body_attributes: str
    article: str
    styles: tuple[str, ...]
    scripts: tuple[str, ...]


def parts_of(html: str, url: str, asset: Asset) -> Parts:
    """Take the page at `url` apart, with everything that it loads."""
    article = html[html.index("<article") : html.rindex("</article>") + len("</article>")]
    styles = [(where, asset(where)) for where in _addresses(_STYLE, html, url)]
    scripts = [where for where in _addresses(_SCRIPT, html, url) if _belongs_to_page(where)]
    title, body, language = _TITLE.search(html), _BODY.search(html), _LANGUAGE.search(html)
    return Parts(
        title[1].strip() if title else "",
        language[1] if language else "en",
        body[1] if body else "",
        _closed(article, url, asset),
        tuple(_style(data, where, asset) for where, data in styles if data is not None),
        tuple(_script(data) for data in map(asset, scripts) if data is not None),
    )


def single_file(parts: Parts, note: str = "", more_style: str = "", with_scripts: bool = True) -> str:
    """The file. `note` stands below the page; `more_style` comes last and wins."""
    styles = "".join(f"<style>{text}</style>\n" for text in (*parts.styles, _NO_LINKS, more_style) if text)
    scripts = "".join(f"<script>{text}</script>\n" for text in (_DARK, *parts.scripts)) if with_scripts else ""
    below = (
        f'<footer class="md-footer foot"><div class="md-grid foot__inner">{escape(note)}</div></footer>' if note else ""
    )
    return (
        f'<!doctype html>\n<html lang="{parts.language}" class="js">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width,initial-scale=1">\n'
        f'<link rel="icon" href="data:,">\n<title>{parts.title}</title>\n{styles}</head>\n'
        f'<body{parts.body_attributes}>\n<div class="md-container"><main class="md-main">'
        '<div class="md-main__inner md-grid"><div class="md-content">\n'
        f"{parts.article}\n</div></div></main>{below}</div>\n{scripts}</body>\n</html>\n"
    )


def _belongs_to_page(where: str) -> bool:
    return where not in _OF_THE_FRAME and not where.startswith(_THEME_SCRIPTS)


def _addresses(pattern: re.Pattern[str], html: str, url: str) -> list[str]:
    """The addresses of files of the site that a page names, from the root of the site."""
    return [_from_root(found, url) for found in pattern.findall(html) if "//" not in found]


def _from_root(address: str, base: str) -> str:
    path = unquote(re.split("[?#]", address)[0])
    return posixpath.normpath(posixpath.join(posixpath.dirname(base), path))


def _closed(article: str, url: str, asset: Asset) -> str:
    """The article without ways out of the file, its pictures in it."""

    def inlined(found: re.Match[str]) -> str:
        return f"{found[1]}{_data(found[2], url, asset) or found[2]}{found[3]}"

    return _PICTURE.sub(inlined, _IMAGE.sub(_alone, _OUTWARD.sub(r"\1", article)))


def _alone(found: re.Match[str]) -> str:
    """A picture that comes in several sizes and forms as the largest of the form that every browser shows."""
    tag = found[0]
    if tag.startswith("<source"):
        return ""
    offered = _SET.search(tag)
    if offered is None:
        return tag
    addresses = [one.split() for one in offered[1].split(",")]
    largest = max(addresses, key=lambda one: int(one[1].removesuffix("w")))[0]
    return re.sub(r'(\ssrc=")[^"]*', rf"\g<1>{largest}", _OF_A_SET.sub("", tag))


def _style(data: bytes, where: str, asset: Asset) -> str:
    """A style sheet with the files that it names in it; what is not there is nothing."""

    def inlined(found: re.Match[str]) -> str:
        address = _data(found[2], where, asset)
        return f'url("{address}")' if address else "url(data:,)"

    text = _SOURCE_MAP.sub("", data.decode("utf-8"))
    return _CSS_URL.sub(inlined, text).replace("</", "<\\/")


def _script(data: bytes) -> str:
    return _SOURCE_MAP.sub("", data.decode("utf-8")).replace("</script", "<\\/script").replace("<!--", "<\\!--")


def _data(address: str, base: str, asset: Asset) -> str | None:
    """A file as an address that holds it."""
    if "//" in address or address.startswith("data:"):
        return None
    where = _from_root(address, base)
    found = asset(where)
    if found is None:
        return None

    return f"data:{media_type(where)};base64,{base64.b64encode(found).decode('ascii')}"
