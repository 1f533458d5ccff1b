"""A calculator in a real browser, opened from a folder: what is typed there gives what Python gives."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from bayleaf.calculations.answer import compute
from bayleaf.calculations.asked import ask, example_of
from bayleaf.calculations.formula import Formula, all_formulas, formula_named
from bayleaf.mkdocs_shell import open_shell
from bayleaf.pages.all import all_pages
from kit import check
from thinned import some


def formula(name: str) -> Formula:
    found = formula_named(name)
    assert found is not None
    return found


def texts(of: Formula, given: dict[str, str]) -> list[str]:
    """What Python gives, as a page shows it."""
    return [one.text.replace("-", "−").replace(" ", "\u00a0") for one in compute(ask(of, given.items()))]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small manual, rendered."""
    folder = tmp_path_factory.mktemp("calculators")
    manual = check(folder, {})
    open_shell(folder / "mkdocs.yml", all_pages(manual), manual.findings).write(folder / "site")
    return folder / "site"


@pytest.fixture
def tab(browser: Any) -> Iterator[Any]:
    """A tab as wide as a phone; no script may fail in it."""
    opened = browser.new_page(viewport={"width": 390, "height": 844})
    faults: list[str] = []
    opened.on("pageerror", lambda error: faults.append(str(error)))
    yield opened
    opened.close()
    assert [] == faults


def results(tab: Any) -> list[str]:
    return tab.locator("[data-result]").all_text_contents()


def put(tab: Any, name: str, text: str, unit: str | None = None) -> None:
    """Type a value, and choose its unit."""
    tab.fill(f"[id='value:{name}']", text)
    if unit is not None:
        tab.select_option(f"[data-input='{name}'] [data-unit]", unit)


def test_typed_with_a_comma(tab: Any, site: Path) -> None:
    """The results stand there while typing, equal to those of Python, with the curve and what was understood."""
    tab.goto(f"{site.as_uri()}/calculators/discharge.html")
    assert ["–", "–", "–"] == results(tab)
    assert (
        "Still needed: Resistance that discharges; Capacitance; Voltage at the start."
        == tab.locator("[data-status]").inner_text()
    )

    put(tab, "R", "0,22", "MΩ")
    put(tab, "C", "470", "µF")
    put(tab, "from", "0,8", "kV")

    assert texts(formula("discharge"), {"R": "220 kΩ", "C": "470 µF", "from": "800 V"}) == results(tab)
    assert "= 220000 Ω" == tab.locator("[id='note:R']").inner_text()
    assert tab.locator("[data-curve] path").count() >= 8
    assert "" == tab.locator("[data-status]").inner_text()


def test_a_mistake_takes_the_result_away(tab: Any, site: Path) -> None:
    """What is wrong stands under its field; an old result never stays."""
    tab.goto(f"{site.as_uri()}/calculators/discharge.html")
    tab.click("[data-fill]")
    assert texts(formula("discharge"), dict(formula("discharge").example)) == results(tab)

    put(tab, "C", "1,125")
    assert ["–", "–", "–"] == results(tab)
    ways = "write `1.1250` if the comma stands before decimals, `1125` if it parts thousands"
    assert f"`1,125` can be read in two ways; {ways}" == tab.locator("[id='note:C']").inner_text()
    assert 0 == tab.locator("[data-curve] svg").count()

    put(tab, "C", "0")
    assert "Cannot be computed: capacitance is 0; it has to be above 0." == tab.locator("[data-status]").inner_text()

    tab.click("[data-clear]")
    assert "" == tab.input_value("[id='value:R']") and "60" == tab.input_value("[id='value:to']")


def test_choices_and_several_values(tab: Any, site: Path) -> None:
    """A list for choices; several numbers with a semicolon between them."""
    tab.goto(f"{site.as_uri()}/calculators/parallel.html")
    put(tab, "of", "1,5; 2,2; 4,7", "MΩ")
    put(tab, "u", "10; 20; 30", "kΩ")
    given = {"of": "1.5 MΩ; 2.2 MΩ; 4.7 MΩ", "u": "10 kΩ; 20 kΩ; 30 kΩ"}
    assert texts(formula("parallel"), given) == results(tab)

    tab.goto(f"{site.as_uri()}/calculators/insulation-limit.html")
    put(tab, "U", "750")
    tab.select_option("[id='value:bus']", "joined")
    assert texts(formula("insulation-limit"), {"U": "750 V", "bus": "joined"}) == results(tab)


def test_every_calculator_gives_its_example(tab: Any, site: Path) -> None:
    """By a tap on its button."""
    wrong = []
    for one in some(all_formulas(), 5):
        tab.goto(f"{site.as_uri()}/calculators/{one.slug}.html")
        tab.click("[data-fill]")
        shown = [text.replace("\u00a0", " ").replace("−", "-") for text in results(tab)]
        if shown != [result.text.replace("−", "-") for result in compute(example_of(one))]:
            wrong.append((one.slug, shown))
    assert [] == wrong


def test_targets_are_large_enough_for_gloves(tab: Any, site: Path) -> None:
    """Fields, choices and buttons are 48 px high and more."""
    tab.goto(f"{site.as_uri()}/calculators/voltage-drop.html")

    boxes = [one.bounding_box() for one in tab.locator(".bl-calc :is(input, select, button)").all()]
    assert len(boxes) > 15
    assert [] == [box for box in boxes if box["height"] < 48 or box["width"] < 48]


def test_without_script_the_example_stands(browser: Any, site: Path) -> None:
    """No empty form; law and example are there."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{site.as_uri()}/calculators/discharge.html")

    assert not page.locator("form.bl-calc").is_visible() and not page.locator("[data-answer]").is_visible()
    assert "99.36\u00a0s" in page.locator(".bl-calc-example").inner_text()
    assert page.locator(".bl-curve svg").is_visible()
    context.close()
