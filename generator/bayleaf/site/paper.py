"""What a printed sheet carries beyond the page: title, number and revision in its margins, and a code that leads back.

Margins that hold text are known to Chromium; for other browsers the same line stands below every step. Which browser
needs it is told by `paper.css`.
"""

from html import escape
from urllib.parse import quote, urljoin

import segno

from .facts import PageFacts

#: Read at arm's length in the light of a bay: error correction of a quarter, four modules of white around.
_CORRECTION = "q"
_WHITE = 4


def sheet_parts(title: str, url: str, facts: PageFacts, site_url: str | None) -> str:
    """HTML to be put before the body of a page; unseen on a screen. Only what has a number has a code."""
    if not facts.number:
        return f'<style media="print">{margins(title, "")}</style>'
    return (
        f'<style media="print">{margins(title, number_line(facts))}</style>'
        f'<div class="sheet-code" data-search-exclude>{address_code(url, site_url)}</div>'
    )


def number_line(facts: PageFacts) -> str:
    """Number and revision, as "larkway-m12/isolate · revision 3 of 2026-10-02"."""
    return f"{facts.number} · revision {facts.revision}" if facts.revision else f"{facts.number} · no revision stated"


def margins(title: str, line: str, page: str = "") -> str:
    """Style for the margins of the sheets of a page; `page` names the sheets where a file holds several pages."""
    boxes = f"@top-left{{content:{css_text(title)}}}@bottom-left{{content:{css_text(line)}}}"
    selector = f".sheet-{page}{{page:{page};--sheet-line:{css_text(line)}}}" if page else ""
    root = "" if page else f":root{{--sheet-line:{css_text(' · '.join(filter(None, (title, line))))}}}"
    return f"@page {page}{{{boxes}}}{selector}{root}"


def address_code(url: str, site_url: str | None) -> str:
    """The code and the address under it; without an address of the site, only where the page lies."""
    if not site_url:
        return f"<p>Page {escape(url)} of the manual</p>"
    address = urljoin(site_url.rstrip("/") + "/", quote(url))
    code = segno.make(address, error=_CORRECTION, micro=False)
    drawing = code.svg_inline(border=_WHITE, omitsize=True, svgclass=None, lineclass=None)
    return f"{drawing}<p>{escape(address)}</p>"


def css_text(text: str) -> str:
    """A text as CSS writes it between quotation marks; `<` is escaped too, since it may stand in HTML."""
    escaped = "".join(f"\\{ord(sign):x} " if sign in '"\\<>&\n\r\f' else sign for sign in text)
    return f'"{escaped}"'
