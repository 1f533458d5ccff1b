"""The pages of a manual: every link leads somewhere, every text is escaped, every fact of the data is there."""

import re
from collections.abc import Mapping
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from posixpath import join, normpath

import pytest
from bayleaf.loading.schema import schema
from bayleaf.manual import Manual
from bayleaf.pages.all import all_pages
from bayleaf.pages.body import Body
from demo_kit import demo_bodies
from kit import BASES, PLACES, PROCEDURE, VEHICLE, check

ROOT = Path(__file__).resolve().parents[2]


class Marks(HTMLParser):
    """Collects the links and the anchors of a page, and checks that its tags are closed in order."""

    VOID = frozenset({"br", "path", "img", "source", "input", "hr", "meta"})

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.anchors: list[str] = []
        self.open: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if given.get("id"):
            self.anchors.append(given["id"] or "")
        if tag == "a" and given.get("href"):
            self.links.append(given["href"] or "")
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.VOID:
            assert self.open, f"</{tag}> closes nothing"
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


@cache
def marks_of(html: str) -> Marks:
    marks = Marks()
    marks.feed(html)
    assert marks.open == []
    return marks


@pytest.fixture(scope="module")
def bodies() -> Mapping[str, Body]:
    return demo_bodies()


def test_every_link_leads_to_a_page_and_an_anchor_that_exist(demo: Manual, bodies: Mapping[str, Body]) -> None:
    """A link is never dead: neither its page nor the place on it is missing, nor the picture that it opens."""
    anchors = {url: set(marks_of(body.html).anchors) for url, body in bodies.items()}
    anchors |= {picture.url: set() for page in all_pages(demo) for picture in page.pictures}
    anchors |= {free.url: set() for free in demo.pages.values()}

    dead = []
    for url, body in bodies.items():
        for link in marks_of(body.html).links:
            page, _, anchor = link.partition("#")
            target = normpath(join(url.rpartition("/")[0], page)) if page else url
            if target not in anchors or (anchor and anchor not in anchors[target]):
                dead.append((url, link))

    assert dead == []


def test_every_entry_of_the_contents_and_of_the_search_exists(bodies: Mapping[str, Body]) -> None:
    """The table of contents and the search lead to anchors that are on the page."""
    anchors = {url: set(marks_of(body.html).anchors) for url, body in bodies.items()}

    missing = [
        (url, heading.anchor)
        for url, body in bodies.items()
        for heading in body.toc
        if heading.anchor not in anchors[url]
    ]
    for body in bodies.values():
        for record in body.search:
            page, _, anchor = record.url.partition("#")
            if page not in anchors or (anchor and anchor not in anchors[page]):
                missing.append((record.url, record.title))

    assert missing == []


def test_no_anchor_stands_twice_on_a_page(bodies: Mapping[str, Body]) -> None:
    """An address within a page means one place only."""
    doubled = {
        url: sorted({anchor for anchor in found if found.count(anchor) > 1})
        for url, body in bodies.items()
        if (found := marks_of(body.html).anchors)
    }

    assert {url: anchors for url, anchors in doubled.items() if anchors} == {}


def test_texts_of_the_author_are_never_markup(tmp_path) -> None:
    """A title, a name or a step that looks like HTML is shown as it was written."""
    wild = "<b onload=x>&amp; \"'</b>"
    vehicle = VEHICLE.replace("Test van", wild.replace("'", "''").join("''")).replace("Cabin heater", "<i>heater</i>")
    procedure = (
        PROCEDURE.replace("Test job", "Test <script>alert(1)</script>")
        .replace("Look at the vehicle.", "Look <u>here</u> & there.")
        .replace(
            "on: nothing",
            "on: cabin-heater\n    expect: a <b>sign</b>\n    warning: {hazard: <q>, consequence: <q>, avoid: <q>}",
        )
    )

    manual = check(tmp_path, {PLACES["vehicle"]: vehicle, PLACES["procedure"]: procedure})

    assert [finding.message for finding in manual.findings if finding.severity == "error"] == []
    for page in all_pages(manual):
        html = page.make().html
        for raw in ("<script>", "<u>", "<i>", "<q>", 'onload=x>&amp; "', "<b>sign"):
            assert raw not in html, (page.url, raw)


def test_what_no_manual_changes_is_made_once(demo: Manual, tmp_path: Path) -> None:
    """The pages of rules, calculators and the format are the same in every manual, and all others are not."""
    kept = {page.url for page in all_pages(demo)} & {page.url for page in all_pages(check(tmp_path, {}))}
    made = [{page.url: page.make() for page in all_pages(manual) if page.url in kept} for manual in (demo, demo)]
    same = {url for url in kept if made[0][url] is made[1][url]}

    assert {"rules.html", "rules/thread-may-strip.html", "format.html", "commands.html"} < same
    assert {"vehicles.html", "torques.html", "calculators.html"} < kept - same


def test_a_torque_is_shown_in_both_systems(bodies: Mapping[str, Body]) -> None:
    """6 N·m is 4.4254 lbf·ft (NIST SP 811, B.8: 1.355818 N·m for 1 lbf·ft), shown to three figures."""
    text = "".join(marks_of(bodies["torques.html"].html).text)

    assert "6\xa0N·m (4.43\xa0lbf·ft)" in text


def test_the_steps_of_a_performed_procedure_are_on_the_page_of_the_job(
    demo: Manual, bodies: Mapping[str, Body]
) -> None:
    """One page, one job: what is performed is unfolded, numbered within the step that performs it."""
    job = demo.procedures["larkway-m12/find-insulation-fault"]
    index = next(i for i, step in enumerate(job.steps) if step.action.key == "perform")
    performed = demo.procedures[job.steps[index].action.procedure]

    text = "".join(marks_of(bodies["larkway-m12/find-insulation-fault.html"].html).text)

    for inner in performed.steps:
        assert f"{job.steps[index].number}.{inner.number} " in text


def test_the_format_page_names_every_key_of_the_schemas(bodies: Mapping[str, Body]) -> None:
    """The reference is made from the schemas, and leaves nothing out."""
    text = bodies["format.html"].html
    keys = {key for kind in ("vehicle", "procedure", "workshop", "record", "common") for key in _keys(schema(kind))}

    assert sorted(key for key in keys if f"<code>{key}</code>" not in text) == []


def _keys(node: object) -> set[str]:
    found: set[str] = set()
    if isinstance(node, dict):
        if isinstance(node.get("properties"), dict) and "title" in node:
            found |= set(node["properties"])
        for key, value in node.items():
            if key not in ("dependentSchemas", "examples"):
                found |= _keys(value)
    return found


def test_limits_stand_below_their_procedure_each_once_with_all_its_steps(bodies: Mapping[str, Body]) -> None:
    """Both proofs of one circuit are one line, with a link to either step; the contents name vehicles and procedures."""
    page = "granbrook-t8/auxiliary-link-keeps-charge.html"
    body = bodies["limits.html"]
    below = body.html.partition('id="granbrook-t8--auxiliary-link-keeps-charge"')[2].partition("</section>")[0]
    row = next(one for one in below.split("<tr>") if "Prove dead: DC link of the auxiliary inverter" in one)

    assert {f"{page}#step-prove-first", f"{page}#step-prove-second"} <= set(re.findall('href="([^"]+)"', row))
    assert "at most 5\u00a0V</strong>" in row
    levels = {heading.anchor: heading.level for heading in body.toc}
    assert (levels["granbrook-t8"], levels["granbrook-t8--auxiliary-link-keeps-charge"]) == (2, 3)


def test_an_empty_manual_has_pages_that_say_so(tmp_path) -> None:
    """A manual without a vehicle renders; its indexes say that there is nothing yet."""
    empty = {PLACES[kind]: "" for kind in BASES} | {"procedures/test-van/isolate.yml": ""}
    (tmp_path / "procedures").mkdir()

    manual = check(tmp_path, empty)
    text = " ".join(page.make().html for page in all_pages(manual))

    assert manual.findings == ()
    assert "No vehicle has a profile yet." in text
    assert "No procedure names a trouble code yet." in text


def test_a_page_with_errors_shows_them(tmp_path) -> None:
    """Rendered in spite of errors, the page itself says what is wrong with it."""
    manual = check(tmp_path, {PLACES["procedure"]: PROCEDURE + "    time: 5 Nm\n"})

    body = next(page for page in all_pages(manual) if page.url == "test-van/job.html").make()

    assert "`5 Nm` is a torque, but a time is expected" in "".join(marks_of(body.html).text)


def test_the_safety_messages_of_a_performed_procedure_stand_before_its_steps(
    demo: Manual, bodies: Mapping[str, Body]
) -> None:
    """Who reads only the page of the job reads every message, who is needed and which roles there are."""
    performed = demo.procedures["granbrook-t8/isolate-traction"]

    html = bodies["granbrook-t8/replace-inverter-coolant-pump.html"].html
    before = "".join(marks_of(html).text).partition("Park on a level, dry place")[0]

    assert performed.messages and performed.roles
    for message in performed.messages:
        assert message.hazard in before
    for task in performed.roles.values():
        assert task in before
    assert performed.qualification is not None and performed.qualification in before.partition("What you need")[0]
