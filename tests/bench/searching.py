"""From a key to the first hit, in our site and in Material's own search over plain pages of the same text.

Both sites lie on the same server of this machine, or in a folder, and are driven in the same Chromium. The text is put into the
field but for its last sign, which is typed; the clock runs from the event of that key, which the page notes itself, to the frame
behind the first hit. Cold: the first question to a page that was just loaded, in a browser that keeps nothing. Warm: other texts,
asked in a page that has answered one. Material begins to load its index with the page, ours with the first question.

The goal is for the first question: every page of a site begins anew, and who looks something up opens the page that was found. Of
the further ones on the same page Material answers a code within two or three frames of the screen; a tenth of that is no frame.
"""

import functools
import http.server
import os
import random
import shutil
import statistics
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

import synthetic

GOAL = 0.1
#: Seconds by what was asked; empty where a search does not answer at all.
_Times = dict[str, list[float]]
_ARGUMENTS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run")
_LONGEST = 600_000
#: So long is waited for a search that may not run at all from a folder.
_FROM_FOLDER = 20_000
ASKED = 200


class Kind(NamedTuple):
    """A search: the page on which it is asked, what opens it, its field, its list, and what a hit is."""

    name: str
    page: str
    opens: str | None
    field: str
    hits: str
    hit: str


OURS = Kind("ours", "synthetic-001/vehicle.html", "/", "#find-field", ".find__list", ".find__hit")
THEIRS = Kind(
    "Material", "synthetic-001/vehicle/index.html", None, ".md-search__input", ".md-search-result__list",
    ".md-search-result__item",
)  # fmt: skip

#: Waits for a list that is made anew behind the key. A list is emptied before it is filled, so what is added is of this question.
_WATCH = """([field, hits, hit]) => {
  globalThis.shown = new Promise((done) => {
    let begun = 0;
    document.querySelector(field).addEventListener("keydown", (event) => (begun ||= event.timeStamp), { capture: true });
    const watch = new MutationObserver((changes) => {
      const isHit = (node) => node.matches?.(hit) || node.querySelector?.(hit);
      if (!begun || !changes.some((one) => [...one.addedNodes].some(isHit))) return;
      watch.disconnect();
      requestAnimationFrame(() => setTimeout(() => done(performance.now() - begun)));
    });
    watch.observe(document.querySelector(hits), { childList: true, subtree: true });
  });
}"""


def measure(site: Path, plain: Path, count: int, repeats: int) -> None:
    """Prints how many of `ASKED` things come first in our search, the times of both searches, and their ratios."""
    with _browser() as browser:
        things = random.Random(7).sample(synthetic.things(count), min(ASKED, 4 * count))
        wrong = not_first(browser, site, things)
        verdict = "holds" if not wrong else "FAILS"
        print(f"goal: {len(things)} codes, connectors and part numbers come first: {verdict} ({len(wrong)} do not)")
        print("".join(f"    {line}\n" for line in wrong[:10]), end="", flush=True)
        found: dict[tuple[str, str], _Times] = {}
        for kind, folder in ((OURS, site), (THEIRS, plain)):
            with _served(folder) as base:
                found[kind.name, "http"] = _times(browser, kind, base, _texts(count, repeats))
            found[kind.name, "file"] = _times(browser, kind, folder.as_uri() + "/", _texts(count, repeats))
    _print_times(found, repeats)


def not_first(browser: Any, site: Path, things: list[tuple[str, str]]) -> list[str]:
    """The things, each a text and the address where it stands, that are not the first hit; in words."""
    tab = browser.new_page()
    tab.set_default_timeout(_LONGEST)
    tab.goto(f"{site.as_uri()}/{OURS.page}")
    answers = tab.evaluate(
        "async (texts) => { const out = []; "
        "for (const text of texts) out.push((await bayleafSearch.find(text))[0]?.address); return out; }",
        [text for text, _ in things],
    )
    tab.close()
    return [
        f"{text}: {got}, not {address}"
        for (text, address), got in zip(things, answers, strict=True)
        if got != address
    ]  # fmt: skip


def _texts(count: int, repeats: int) -> dict[str, list[str]]:
    """What is asked, by kind."""
    numbers = random.Random(11).sample(range(count), min(repeats + 1, count))
    facts = [synthetic.facts(number) for number in numbers]
    return {
        "trouble code": [one["code"] for one in facts],
        "part number": [one["number"] for one in facts],
        "three words": [" ".join(one["noun"].split()[:2]) + " insulation" for one in facts],
    }


def _times(browser: Any, kind: Kind, base: str, texts: dict[str, list[str]]) -> _Times:
    """Each kind of text is asked cold in a page of its own, the others of its kind then in the last of these pages."""
    found: _Times = {}
    for name, asked in texts.items():
        tab = None
        for text in asked[1:]:
            if tab is not None:
                tab.context.close()
            tab = _opened(browser, kind, base)
            seconds = _asked(tab, kind, text)
            if seconds is None:
                tab.context.close()
                return {}
            found.setdefault(f"{name}, cold", []).append(seconds)
        warm = [_asked(tab, kind, text) for text in asked[:-1]]
        found[f"{name}, warm"] = [seconds for seconds in warm if seconds is not None]
        tab.context.close()
        for case in (f"{name}, cold", f"{name}, warm"):
            print(
                f"    {kind.name}, {base[:4]}, {case}: {', '.join(f'{1000 * one:.0f}' for one in found[case])} ms",
                flush=True,
            )
    return found


def _opened(browser: Any, kind: Kind, base: str) -> Any:
    tab = browser.new_context(viewport={"width": 1280, "height": 800}).new_page()
    tab.set_default_timeout(_FROM_FOLDER if base.startswith("file:") else _LONGEST)
    tab.goto(base + kind.page)
    if kind.opens:
        tab.keyboard.press(kind.opens)
    tab.focus(kind.field)
    return tab


def _asked(tab: Any, kind: Kind, text: str) -> float | None:
    """Seconds from the last key to the frame behind the first hit; None where there is none in time."""
    from playwright.sync_api import Error

    tab.evaluate(_WATCH, [kind.field, kind.hits, kind.hit])
    tab.evaluate("([field, text]) => { document.querySelector(field).value = text; }", [kind.field, text[:-1]])
    tab.keyboard.press(text[-1])
    tab.evaluate("() => { globalThis.shown.then((time) => (globalThis.time = time)); globalThis.time = 0; }")
    try:
        tab.wait_for_function("globalThis.time > 0")
    except Error:
        return None
    return float(tab.evaluate("globalThis.time")) / 1000


def _print_times(found: dict[tuple[str, str], _Times], repeats: int) -> None:
    theirs = found[THEIRS.name, "http"]
    said = "also answers from a folder" if found[THEIRS.name, "file"] else "does not answer from a folder"
    print(f"Material's search {said}; ours is compared with its time from the server")
    print(f"\nkey to first hit, median of {repeats:<6}" + "".join(
        f"{word:>14}" for word in ("Material ms", "ours ms", "ratio", "from folder", "ratio")))  # fmt: skip
    worst = 0.0
    for name, times in theirs.items():
        floor, figures = statistics.median(times), [f"{1000 * statistics.median(times):.0f}"]
        for way in ("http", "file"):
            own = found[OURS.name, way].get(name)
            if own:
                ratio = statistics.median(own) / floor
                worst = max(worst, ratio) if name.endswith("cold") else worst
                figures += [f"{1000 * statistics.median(own):.0f}", f"{ratio:.3f}"]
            else:
                worst = float("inf")
                figures += ["-", "-"]
        print(f"{name:<34}" + "".join(f"{figure:>14}" for figure in figures))
    print(
        f"goal: the first answer of a page within {GOAL} of Material's: {'holds' if worst <= GOAL else 'FAILS'} ({worst:.3f} at worst)"
    )


@contextmanager
def _browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    path = os.environ.get("BAYLEAF_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=list(_ARGUMENTS))
        yield started
        started.close()


class _Quiet(http.server.SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *_: object) -> None:
        """Say nothing."""


class _Server(http.server.ThreadingHTTPServer):
    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that is closed leaves connections behind; everything else is told."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


@contextmanager
def _served(folder: Path) -> Iterator[str]:
    server = _Server(("127.0.0.1", 0), functools.partial(_Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()
