"""Paper, as Chromium prints it: A4 and Letter, blank and filled in, no step split, number and revision on every sheet."""

import re
from collections.abc import Iterator
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path
from unicodedata import normalize

import pytest
import zxingcpp
from bayleaf.commands import run
from bayleaf.manual import Manual, load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.mkdocs_shell.direct import Shell
from bayleaf.pages.all import all_pages
from bayleaf.pages.tags import Tags
from bayleaf.site import chromium, outputs
from bayleaf.site.facts import facts_of
from bayleaf.site.single_file import parts_of, single_file
from demo_kit import DAY, demo_shell
from job_kit import begin, finish
from pypdfium2 import PdfDocument
from thinned import some

ROOT = Path(__file__).resolve().parents[2]
#: The longest procedure of the demo, and one of every vehicle.
LONGEST = "larkway-m12/find-insulation-fault"
PROCEDURES = ("granbrook-t8/replace-left-air-spring", "larkway-m12/contactor-stuck", LONGEST)
#: The one whose code is read back: a short one.
CODED = "larkway-m12/isolate-traction"
#: Width and height of a sheet in points: ISO 216, and 8.5 × 11 inches.
SIZES = {"A4": (595, 842), "letter": (612, 792)}

#: What must lie on one sheet: a step, a message, a conclusion.
_WHOLE = ".bl-step, .bl-message, .bl-conclusion"
#: Marks the begin and the end of each with a word that is printed there, and each heading and message as parted from
#: what follows it.
_MARK = f"""() => {{
  const word = (text) => Object.assign(document.createElement("small"), {{ textContent: " " + text + " " }});
  document.querySelectorAll(`{_WHOLE}`).forEach((one, at) => {{
    one.prepend(word(`zb${{at}}z`));
    one.append(word(`ze${{at}}z`));
  }});
  let pair = 0;
  for (const message of document.querySelectorAll(".bl-step .bl-message")) {{
    message.append(word(`zm${{pair}}z`));
    message.closest(".bl-step").append(word(`zs${{pair}}z`));
    pair += 1;
  }}
  return document.documentElement.outerHTML;
}}"""


@pytest.fixture(scope="module")
def shell() -> Shell:
    """The pages of the demo manual in their shell."""
    return demo_shell()


@pytest.fixture
def begun(tmp_path: Path) -> Path:
    """The manual that `bayleaf start` writes: one vehicle with three procedures, printed in a fraction of the time."""
    with redirect_stdout(StringIO()):
        assert 0 == run(["start", str(tmp_path / "begun")])
    return tmp_path / "begun"


def _texts(pdf: Path) -> list[str]:
    """What is printed on each sheet, line by line."""
    return [page.get_textpage().get_text_range().replace("\r\n", "\n") for page in PdfDocument(pdf)]


def _sheets(texts: list[str], letter: str) -> dict[str, int]:
    """On which sheet each mark of a kind stands."""
    return {found: sheet for sheet, text in enumerate(texts) for found in re.findall(rf"z{letter}(\d+)z", text)}


@pytest.mark.parametrize(("procedure", "size"), some([(one, size) for one in PROCEDURES for size in SIZES], 3))
def test_no_step_is_split_and_no_warning_parted_from_its_step(
    browser, shell: Shell, tmp_path: Path, procedure: str, size: str
) -> None:
    """Begin and end of every step, message and conclusion lie on one sheet; so do a step's messages and its end."""
    url = f"{procedure}.html"
    text = single_file(
        parts_of(shell.page_html(url), url, shell.asset), more_style=outputs._size(size), with_scripts=False
    )
    tab = browser.new_page()
    tab.set_content(text)
    marked = tab.evaluate(_MARK)
    tab.close()
    chromium.print_pdf(f"<!doctype html>{marked}", tmp_path / "made.pdf")
    texts = _texts(tmp_path / "made.pdf")
    begin, end = _sheets(texts, "b"), _sheets(texts, "e")

    assert len(begin) > 12
    assert begin.keys() == end.keys()
    assert [] == [one for one in begin if begin[one] != end[one]]
    assert _sheets(texts, "m") == _sheets(texts, "s")


@pytest.mark.parametrize("size", SIZES)
def test_a_job_that_was_worked_on_is_printed_with_its_readings(
    browser, shell: Shell, demo: Manual, tmp_path: Path, size: str
) -> None:
    """Filled in too: no step is split, every sheet has its number, each reading stands beside its verdict."""
    sheet = tmp_path / "sheet.html"
    url = f"{CODED}.html"
    sheet.write_text(single_file(parts_of(shell.page_html(url), url, shell.asset)), encoding="utf-8")
    tab = browser.new_page()
    tab.clock.install()
    tab.goto(sheet.as_uri())
    begin(tab, "2026-0900")
    done = finish(tab, {})
    tab.evaluate(_MARK)
    tab.evaluate("Object.assign(document.documentElement.dataset, { jobGloves: '', jobScheme: 'night' })")
    tab.pdf(path=tmp_path / "made.pdf", format=size)
    kept = tab.evaluate("({ ...document.documentElement.dataset })")
    tab.close()
    assert {"jobGloves": "", "jobScheme": "night"}.items() <= kept.items()
    texts = _texts(tmp_path / "made.pdf")
    begin_, end = _sheets(texts, "b"), _sheets(texts, "e")
    whole = re.sub(r"\s+", " ", " ".join(texts))
    newest = demo.procedures[CODED].revisions[0]
    number = f"{CODED} · revision {newest.number} of {newest.date}"

    assert "Job 2026-0900" in whole
    assert 3 == len(re.findall(r"Entered at \d\d:\d\d: 0\.625 V ?✓ Dead", whole))
    assert len(done) - 2 == whole.count("Done at")  # all but the proof and the question
    log = whole.partition("Job 2026-0900: what was entered, in order of time")[2]
    assert 3 == log.count("0.625 V between") and len(done) - 2 == len(re.findall(r" Done(?= 20|$| )", log))
    assert "The job ends: " in log[:200]
    assert len(begin_) > 12
    assert begin_.keys() == end.keys()
    assert [] == [one for one in begin_ if begin_[one] != end[one]]
    assert _sheets(texts, "m") == _sheets(texts, "s")
    assert [] == [at for at, text in enumerate(texts, 1) if number not in re.sub(r"\s+", " ", text)]


def test_the_flow_is_printed_in_parts_with_every_step(shell: Shell, demo: Manual, tmp_path: Path) -> None:
    """Two parts beside each other, none higher than a sheet of Letter; every step of the procedure is in one of them."""
    url = f"{LONGEST}.html"
    parts = parts_of(shell.page_html(url), url, shell.asset)
    drawn = parts.article.partition('class="bl-flow-paper"')[2]
    told = re.findall(r"<figcaption>Steps? (\S+)(?: to (\S+))? \(part (\d+) of (\d+)\)", drawn)
    style = f"{outputs._size('letter')} .bl-step {{ display: none; }}"
    chromium.print_pdf(single_file(parts, more_style=style, with_scripts=False), tmp_path / "made.pdf")
    texts = _texts(tmp_path / "made.pdf")
    sheets = [text for text in texts if re.search(r"part \d+ of", text)]
    steps = demo.procedures[LONGEST].steps
    printed = "\n".join(sheets)

    assert [str(at) for at in range(1, len(told) + 1)] == [number for _, _, number, _ in told]
    assert (len(told) + 1) // 2 == len(sheets)
    assert steps[0].number == told[0][0]
    assert [] == [
        step.number for step in steps if not re.search(rf"^{re.escape(step.number)}\b", printed, re.MULTILINE)
    ]


@pytest.mark.parametrize(("name", "size"), [(PROCEDURES[0], "A4"), (CODED, "letter")])
def test_every_sheet_names_title_number_revision_and_its_place_among_all(
    shell: Shell, demo: Manual, tmp_path: Path, name: str, size: str
) -> None:
    """A sheet that lies alone on a bench still says what it belongs to."""
    pdf = outputs.write_pdf(shell, name, size, tmp_path)
    texts = [re.sub(r"\s+", " ", text) for text in _texts(pdf)]
    procedure = demo.procedures[name]
    newest = procedure.revisions[0]
    line = f"{name} · revision {newest.number} of {newest.date}"

    assert {SIZES[size]} == {tuple(map(round, page.get_size())) for page in PdfDocument(pdf)}
    assert [] == [at for at, text in enumerate(texts, 1) if f"Sheet {at} of {len(texts)}" not in text]
    assert [] == [at for at, text in enumerate(texts, 1) if line not in text or procedure.title not in text]


def test_the_whole_manual_has_contents_with_the_numbers_of_its_sheets(begun: Path, tmp_path: Path) -> None:
    """The number beside a title is that of the first sheet with this title in its margin, for every page in its order."""
    manual = load_manual(begun, DAY)
    facts = facts_of(manual)
    shell = open_shell(begun / "mkdocs.yml", all_pages(manual), manual.findings, facts, Tags(manual))
    pages = [normalize("NFKC", text) for text in _texts(outputs.write_manual_pdf(shell, facts, "A4", tmp_path))]
    urls = outputs.bound_urls(shell.urls, facts)
    first = next(at for at, text in enumerate(pages, 1) if _margin(text) == shell.title(urls[0]))
    contents = re.sub(r"^Sheet \d+ of \d+$", "", "\n".join(pages[1 : first - 1]), flags=re.MULTILINE)
    told = list(_found_in(contents.partition("Contents\n")[2], [shell.title(url) for url in urls]))
    starts = [at for at in range(first, len(pages) + 1) if _margin(pages[at - 1]) != _margin(pages[at - 2])]

    assert len(urls) >= 12
    assert {"codes.html", "torques.html", "wrenfold-c4/energy.html", "wrenfold-c4/review.html"} <= set(urls)
    assert len(urls) == len(told)
    assert starts == [int(number) for _, number in told]
    assert [] == [title for title, number in told if title != _margin(pages[int(number) - 1])]


def _found_in(contents: str, titles: list[str]) -> Iterator[tuple[str, str]]:
    """Each title with the number behind it, one below the other; a long title has several lines."""
    at = 0
    for title in titles:
        lines = re.compile(r"\s+".join(map(re.escape, title.split())) + r"\s+(\d+)$", re.MULTILINE)
        found = lines.search(contents, at)
        if found is not None:
            at = found.end()
            yield title, found[1]


def _margin(text: str) -> str:
    """The title in the upper margin: what is printed first on a sheet."""
    return text.partition("\n")[0]


def test_paper_is_black_on_white_from_the_dark_scheme_as_well(browser, shell: Shell, tmp_path: Path) -> None:
    """Nothing but white behind the text, whatever the device shows on its screen."""
    url = f"{LONGEST}.html"
    page = tmp_path / "page.html"
    page.write_text(single_file(parts_of(shell.page_html(url), url, shell.asset)), encoding="utf-8")
    tab = browser.new_page(color_scheme="dark")
    tab.goto(page.as_uri())
    assert "slate" == tab.evaluate("document.body.dataset.mdColorScheme")
    tab.emulate_media(media="print")
    colours = tab.evaluate(
        "[document.documentElement, document.body, ...document.querySelectorAll('h1, .bl-step, .bl-step h3, .bl-step p:not(.bl-signal)')]"
        ".map((one) => [getComputedStyle(one).backgroundColor, getComputedStyle(one).color])"
    )
    tab.close()
    behind = {colour for colour, _ in colours}
    dark = {colour for _, colour in colours[2:]}

    assert behind <= {"rgb(255, 255, 255)", "rgba(0, 0, 0, 0)", "rgb(244, 244, 244)"}
    assert all(sum(map(int, re.findall(r"\d+", colour)[:3])) <= 3 * 0x99 for colour in dark)


def test_the_code_is_read_back_from_paper(demo: Manual, tmp_path: Path) -> None:
    """From the first sheet of a procedure, as a printer of 200 dots an inch has it; it holds the address of the page."""
    settings = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    settings = settings.replace("docs_dir: procedures", f"docs_dir: {(ROOT / 'procedures').as_posix()}")
    (tmp_path / "mkdocs.yml").write_text(f"site_url: https://manual.example/bay/\n{settings}", encoding="utf-8")
    shell = open_shell(tmp_path / "mkdocs.yml", all_pages(demo), demo.findings, facts_of(demo))
    pdf = PdfDocument(outputs.write_pdf(shell, CODED, "A4", tmp_path))
    found = zxingcpp.read_barcodes(pdf[0].render(scale=200 / 72, grayscale=True).to_numpy())

    assert [f"https://manual.example/bay/{CODED}.html"] == [one.text for one in found]


def test_the_code_leads_to_the_page(browser, tmp_path: Path) -> None:
    """With an address in `mkdocs.yml` it is printed, and only printed."""
    from bayleaf.site import paper
    from bayleaf.site.facts import PageFacts

    parts = paper.sheet_parts(
        "Isolate", "m/isolate.html", PageFacts(number="m/isolate", revision="3"), "https://manual.example"
    )
    files = [ROOT / "site_theme/assets" / name for name in ("pages.css", "paper.css")]
    styles = "".join(file.read_text(encoding="utf-8") for file in files)
    tab = browser.new_page()
    tab.set_content(f"<style>{styles}</style><div class='md-typeset'>{parts}</div>")

    assert not tab.locator(".sheet-code").is_visible()
    tab.emulate_media(media="print")
    box = tab.locator(".sheet-code svg").bounding_box()
    tab.close()
    assert 26 == round(box["width"] * 25.4 / 96) == round(box["height"] * 25.4 / 96)
