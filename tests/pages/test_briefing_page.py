"""The safety briefing: nothing that the vehicle or the procedure states of danger is missing on it."""

import re
from math import log
from pathlib import Path

import pytest
from bayleaf.manual import Manual
from bayleaf.model import actions
from bayleaf.model.procedure import Procedure
from bayleaf.pages import briefing_facts as derived
from bayleaf.pages.all import all_pages
from bayleaf.pages.drawings.discharge_curve import discharge_curve
from bayleaf.pages.show import plain
from bayleaf.pages.states import StateBook, States
from bayleaf.pages.unfolded import Unfolded, unfolded
from bayleaf.safety.wait import required_wait
from demo_kit import demo_bodies
from drawing_kit import texts
from hypothesis import given
from hypothesis import strategies as st
from kit import ISOLATION, PLACES, PROCEDURE, VEHICLE, check
from markupsafe import Markup
from thinned import some

ROOT = Path(__file__).resolve().parents[2]

#: What a procedure says that performs the isolation and ends.
LEFT = "leaves: {traction: proved dead}\nstays_off: [charge-lead, aux-negative, service-plug, inverter-cover]\n"


@pytest.fixture(scope="module")
def briefings() -> dict[str, str]:
    """The briefings of the demo by the id of their procedure."""
    end = ".briefing.html"
    return {url.removesuffix(end): body.html for url, body in demo_bodies().items() if url.endswith(end)}


def said(html: str) -> str:
    """The words of a page, blanks made alike."""
    return " ".join(Markup(html.replace("<", " <")).striptags().split())


def block(html: str, anchor: str) -> str:
    """One part of a briefing."""
    return html[html.index(f'id="{anchor}"') :].partition("</section>")[0]


#: A wait for a leak to show, while the circuit is pumped up: it isolates nothing.
OF_A_TEST = ("hold",)


def steps_of(procedure: Procedure, manual: Manual) -> tuple[tuple[Unfolded, ...], StateBook]:
    book = States(manual).of(procedure)
    assert book is not None
    return unfolded(procedure, book.surveyor.procedures, book), book


def test_every_procedure_of_the_demo_has_one(demo: Manual, briefings: dict[str, str]) -> None:
    """All of them meet class B or 48 V power."""
    assert set(demo.procedures) == set(briefings)


def test_every_step_that_isolates_is_on_it(demo: Manual, briefings: dict[str, str]) -> None:
    """Opening, securing, waiting, proving: each with a link, also from within what is performed, also done again."""
    isolating = (
        actions.Disconnect, actions.Secure, actions.Wait, actions.ProveDead, actions.ProveSafe, actions.Discharge,
    )  # fmt: skip
    for name, procedure in demo.procedures.items():
        steps, _ = steps_of(procedure, demo)
        part = block(briefings[name], "isolation") if 'id="isolation"' in briefings[name] else ""
        runs = [one for one in steps if isinstance(one.action, isolating) and one.step.id not in OF_A_TEST]
        named = [one for one in runs if f'#{one.anchor}">{one.number}</a>' in part]
        inside_a_run = [one for one in runs if one not in named]
        assert all(_between(one, steps, part) for one in inside_a_run), (name, [one.number for one in inside_a_run])


def _between(one: Unfolded, steps: tuple[Unfolded, ...], part: str) -> bool:
    """Whether a step lies within a run such as "27 to 30"."""
    index = steps.index(one)
    shown = [f'#{step.anchor}">{step.number}</a>' in part for step in steps]
    return any(shown[:index]) and any(shown[index:]) and " to <a" in part


def test_every_source_and_all_that_stays_live_is_on_it(demo: Manual, briefings: dict[str, str]) -> None:
    """Each source of each circuit that is met; each place that stays live at a point that is opened, and no other."""
    for name, html in briefings.items():
        procedure = demo.procedures[name]
        vehicle = demo.vehicles[procedure.folder]
        steps, book = steps_of(procedure, demo)
        opened = {one for step in steps if isinstance(step.action, actions.Disconnect) for one in step.action.points}
        text, live = said(block(html, "energies")).casefold(), said(block(html, "stays-live"))
        for circuit in derived.dangerous_circuits(name, book):
            assert circuit.name.casefold() in text
            for source in circuit.sources:
                assert (
                    source.kind == "none" or (source.called or source.name).casefold() in text.replace(" ", "-") + text
                )
        for point in vehicle.isolation_points.values():
            for place in point.leaves_live:
                named = " ".join(place.place.split()) in live and f"(at: {point.name})" in live
                assert named == (point.id in opened)
        for circuit in vehicle.circuits.values():
            if circuit.sealed_in:
                assert circuit.name in live


def test_each_proof_stands_with_its_own_limit(demo: Manual, briefings: dict[str, str]) -> None:
    """A circuit is read more than once: as cool and as without pressure, or as empty and then as not under vacuum."""
    pairs = 0
    for name, procedure in demo.procedures.items():
        proofs = [one for one in steps_of(procedure, demo)[0] if isinstance(one.action, actions.ProveSafe)]
        for anchor in ("proof", "isolation") if proofs else ():
            lines = re.split("<br>|</div>|</dd>|</li>|</tr>", block(briefings[name], anchor))
            for one in proofs:
                link = f'#{one.anchor}">{one.number}</a>'
                told = [
                    line for line in lines if link in line and "If not safe" not in line and "Only when" not in line
                ]
                assert all(said(plain(one.action.limit)) in said(line) for line in told), (name, one.number, told)
                pairs += len(told)
    assert pairs >= 20


def test_every_briefing_says_what_must_always_be_said(briefings: dict[str, str]) -> None:
    """The checker approves nothing; who may do it; breaks; emergencies; the way back."""
    for html in briefings.values():
        text = said(html)
        for words in (
            "The checker approves nothing", "local rules decide", "ends every proof", "Emergency call", "Fire brigade",
            "If any: get out", "implants", "Each owner takes off the own lock",
        ):  # fmt: skip
            assert words in text


def test_the_wait_is_told_with_its_figures(briefings: dict[str, str]) -> None:
    """1.1 mF + 20 %, 47 kΩ + 5 %, 410 V: t = R·C·ln(U0/U), and ½·C·U² at 60 V (textbook; checked by hand)."""
    text = said(block(briefings["larkway-m12/isolate-traction"], "wait")).replace("\u00a0", " ")
    worst = 47e3 * 1.05 * 1.1e-3 * 1.2
    high, low = worst * log(410 / 60), worst * log(410 / 5)

    assert (round(high), round(low)) == (125, 287)
    assert "1.1 mF ± 20 %, 47 kΩ ± 5 %, 410 V, worst case: 125 s to 60 V, 287 s to 5 V" in text
    assert "Asked: 5 min ; the maker states: 5 min; waited here: 5 min, 10 min, step 11 , 15" in text
    assert "60 V on 1.32 mF is still 2.4 J" in text  # ½ · 1.32 mF · (60 V)² = 2.376 J


def test_what_to_do_when_it_is_not_dead_is_the_end_of_that_exit(demo: Manual, briefings: dict[str, str]) -> None:
    """The words of the conclusion that the exit really leads to."""
    end = demo.procedures["larkway-m12/isolate-traction"].conclusions["failed-to-isolate"]
    text = said(block(briefings["larkway-m12/isolate-traction"], "proof"))

    assert end.say is not None
    assert f"Stop. {end.finding} {' '.join(end.say.split())}" in text


def test_each_way_on_from_a_proof_that_failed_is_told(demo: Manual, briefings: dict[str, str]) -> None:
    """A circuit under vacuum leads elsewhere than one under pressure; where all exits lead alike, they have no names.

    Which circuit is not safe is said too: the number of a step helps nobody who does not know.
    """
    text = said(block(briefings["thistledown-v4/refrigerant-line-seals"], "proof"))
    steps = {one.id: one.number for one in demo.procedures["thistledown-v4/refrigerant-line-seals"].steps}
    circuit = demo.vehicles["thistledown-v4"].circuits["refrigerant"].name

    assert f"If not safe {circuit}, below: Go to step {steps['nitrogen-in']}." in text
    assert f"If not safe {circuit}, above or not decided: Go to step {steps['rising']}." in text

    text = said(block(briefings["granbrook-t8/renew-plate-seals"], "proof"))
    steps = {one.id: one.number for one in demo.procedures["granbrook-t8/renew-plate-seals"].steps}
    plate = "Coolant in the right cooling plate, between its two cocks"

    assert f"If not safe {plate}: Go to step {steps['cocks-free']}." in text


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        ("", "instructed"),
        ("  - perform: test-van/isolate\n", "dead work"),
        ("  - set: {mode: off}\n  - disconnect: charge-lead\n  - reconnect: charge-lead\n", "dead work"),
    ],
)
def test_who_may_do_it_follows_from_the_steps(tmp_path: Path, steps: str, expected: str) -> None:
    """Who only works beside high voltage is instructed; who isolates or opens it is qualified for dead work."""
    left = LEFT if "perform" in steps else "leaves: {traction: live}\n"
    text = PROCEDURE.replace("steps:\n", f"{left}steps:\n") + steps
    manual = check(tmp_path, {PLACES["procedure"]: text})
    found = States(manual).of(manual.procedures["test-van/job"])

    assert found is not None, [finding.message for finding in manual.findings]
    facts = derived.facts_of(
        "test-van/job", unfolded(manual.procedures["test-van/job"], manual.procedures, found), found
    )
    assert expected == derived.level_of(facts)


def test_gloves_follow_from_the_undivided_voltage(briefings: dict[str, str]) -> None:
    """410 V DC: class 00 (up to 750 V DC; IEC 60903, ASTM D120); 830 V DC: class 0 (up to 1500 V DC)."""
    assert "insulating gloves class 00 at least (for 410\u00a0V DC" in briefings["larkway-m12/isolate-traction"]
    assert "insulating gloves class 0 at least (for 830\u00a0V DC" in briefings["granbrook-t8/isolate-traction"]


def test_a_procedure_that_meets_nothing_dangerous_has_none(tmp_path: Path) -> None:
    """A look at a vehicle in words alone, without a link either."""
    manual = check(tmp_path, {})
    made = {page.url: page for page in all_pages(manual)}

    assert "test-van/isolate.briefing.html" in made and "test-van/job.briefing.html" not in made
    assert "briefing" not in made["test-van/job.html"].make().html
    assert 'href="isolate.briefing.html"' in made["test-van/isolate.html"].make().html
    assert 'href="../test-van/isolate.briefing.html"' in made["test-van/vehicle.html"].make().html


def test_texts_of_the_author_are_never_markup(tmp_path: Path) -> None:
    """Names, places and ends that look like HTML stand there as written, on the briefing, the review and beside steps."""
    wild = VEHICLE.replace("Traction DC bus", "'<b>bus</b> & \"'").replace("both contacts of", "<i>both</i>")
    end = ISOLATION.replace("The traction system cannot", "The <u>system</u> cannot").replace("Isolate the", "<q>the")
    manual = check(tmp_path, {PLACES["vehicle"]: wild, "procedures/test-van/isolate.yml": end})
    made = {page.url: page.make().html for page in all_pages(manual)}

    assert [finding.message for finding in manual.findings if finding.severity == "error"] == []
    for url in ("test-van/isolate.briefing.html", "test-van/review.html", "test-van/isolate.html"):
        assert "&lt;b&gt;bus" in made[url], url
        for raw in ("<b>bus", "<i>both", "<u>", "<q>"):
            assert raw not in made[url], (url, raw)


def test_a_figure_that_the_maker_does_not_publish_is_said(tmp_path: Path) -> None:
    """The stated time stands alone; nothing is drawn that nobody knows."""
    stored = "stored: {capacitance: not known, bleed: not known, stated_wait: 5 min, to_chassis: 0.4 µF}"
    text = VEHICLE.replace(
        "stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.4 µF}", stored
    )
    manual = check(tmp_path, {PLACES["vehicle"]: text})
    page = next(page for page in all_pages(manual) if page.url == "test-van/isolate.briefing.html").make().html

    part = block(page, "wait")
    assert "capacitance not published, bleed resistance not published, 410\u00a0V" in part
    assert "<svg" not in part and "worst case" not in part


@given(st.floats(61, 1500), st.floats(1e-6, 5e-3), st.floats(1e3, 1e6))
def test_the_curve_falls_from_the_highest_voltage(volts: float, farads: float, ohms: float) -> None:
    """It begins at the top left, never rises, and stays in the frame, whatever the figures."""
    circuit = required_wait_of(volts, farads, ohms)
    drawing = discharge_curve(circuit, ((ohms * farads, "one time constant"),), (60.0, 5.0))

    assert drawing is not None
    curve = next(wire for wire in drawing.wires if wire.look == "live")
    heights = [y for _, y in curve.points]
    assert heights == sorted(heights)
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for wire in drawing.wires for x, y in wire.points)
    assert all(text.rect.x >= 0 and text.rect.right <= drawing.width + 1 for text in drawing.texts)


def required_wait_of(volts: float, farads: float, ohms: float):  # noqa: ANN201
    from bayleaf.safety.wait import Wait

    return Wait(None, capacitance=farads, bleed=ohms, start=volts, end=60.0)


def test_the_labels_of_the_curve_do_not_cover_each_other(demo: Manual) -> None:
    """The two low voltages and the start stand apart, each beside its line."""
    wait = required_wait(demo.vehicles["larkway-m12"].circuits["traction"])
    drawing = discharge_curve(wait, ((125.0, "60 V at worst"), (300.0, "stated")), (60.0, 5.0))

    assert drawing is not None
    rects = [text.rect for text in drawing.texts]
    assert not any(a.overlaps(b) for index, a in enumerate(rects) for b in rects[index + 1 :])
    assert texts(drawing, "mark:300") == "5 min: stated"


def test_nothing_is_drawn_where_nothing_bleeds() -> None:
    """Without a bleed the voltage does not fall."""
    assert discharge_curve(required_wait_of(410, 1e-3, float("inf")), (), (60.0,)) is None


def test_a_briefing_is_printed_on_two_sheets_at_most(browser, demo_site: Path, demo: Manual) -> None:
    """A4, as the browser prints it."""
    sheets = {}
    tab = browser.new_page()
    for name in some([*demo.procedures], 6):
        tab.goto(f"{demo_site.as_uri()}/{name}.briefing.html")
        printed = tab.pdf(format="A4", print_background=True)
        sheets[name] = len(re.findall(rb"/Type\s*/Page\b", printed))  # the objects of the pages stand uncompressed
    tab.close()

    assert all(sheets.values())
    assert {name: count for name, count in sheets.items() if count > 2} == {}


#: Step of a briefing, and when it is done.
SOMETIMES = [
    ("granbrook-t8/renew-plate-seals", 8, "Only when step 7 or 9 is above or not decided:"),
    (
        "granbrook-t8/renew-plate-seals",
        62,
        "Only when step 23 is above or not decided, or step 25 is below, above or not decided:",
    ),
    ("larkway-m12/find-insulation-fault", 57, "Only when step 11 is below or not decided, or step 52 ends otherwise:"),
    ("larkway-m12/find-insulation-fault", 59, "Only when step 57 or 58 is above or not decided:"),
    ("thistledown-v4/engine-ground-path", 32, "Only when a step before it does not go well:"),
]


@pytest.mark.parametrize(("name", "step", "when"), SOMETIMES)
def test_what_is_done_sometimes_names_every_step_that_leads_there(
    briefings: dict[str, str], name: str, step: int, when: str
) -> None:
    """Whoever reads of one way alone takes the other for a mistake of the paper."""
    line = block(briefings[name], "isolation").split(f">{step}</a>")[1]

    assert said(line).startswith(when)


def test_a_leak_test_is_no_isolation(briefings: dict[str, str]) -> None:
    """Twenty minutes under pressure stand between the steps that isolate."""
    part = said(block(briefings["granbrook-t8/renew-plate-seals"], "isolation"))

    assert "Wait 2 min" in part
    assert "Wait 20 min" not in part


def test_nothing_is_said_of_waiting_where_nothing_that_is_charged_is_isolated(briefings: dict[str, str]) -> None:
    """The truck's traction bus stays live while a seal is renewed: a time after which it is empty would mislead."""
    assert 'id="wait"' not in briefings["granbrook-t8/renew-plate-seals"]
    assert "Traction DC bus" in said(block(briefings["granbrook-t8/isolate-traction"], "wait"))
