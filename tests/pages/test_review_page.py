"""The review of a vehicle: what procedures do side by side, and what differs."""

from collections.abc import Hashable
from pathlib import Path

import pytest
from bayleaf.manual import Manual
from bayleaf.pages.all import all_pages
from bayleaf.pages.review_page import RESPECTS, compared, differs, usual_of
from bayleaf.pages.step_view import Performed
from hypothesis import given
from hypothesis import strategies as st
from kit import ISOLATION, PLACES, PROCEDURE, check

ROOT = Path(__file__).resolve().parents[2]

LONGER = ISOLATION.replace("test-van/isolate", "test-van/isolate-again").replace("wait: 5 min", "wait: 8 min")


def test_every_procedure_that_isolates_is_compared(demo: Manual) -> None:
    """In every respect, and with a link to its page and its briefing."""
    pages = {page.url: page for page in all_pages(demo)}
    performed = Performed(demo)
    for folder in demo.vehicles:
        html = pages[f"{folder}/review.html"].make().html
        rows = list(compared(folder, demo, performed))
        assert {one.id for one in demo.procedures.values() if one.folder == folder} == {
            row.procedure.id for row in rows
        }
        for row in rows:
            assert len(RESPECTS) == len(row.respects)
            assert f'href="../{row.procedure.id}.html"' in html
        assert "The checker approves nothing" in html


def test_vehicle_energy_map_and_review_link_to_each_other(demo: Manual) -> None:
    """From either of them one gets to the others."""
    made = {page.url: page for page in all_pages(demo) if page.url.startswith("larkway-m12/")}

    for url in ("larkway-m12/vehicle.html", "larkway-m12/energy.html"):
        assert 'href="review.html"' in made[url].make().html
    review = made["larkway-m12/review.html"].make().html
    assert 'href="vehicle.html"' in review and 'href="energy.html"' in review


def test_what_differs_is_marked_in_words(tmp_path: Path) -> None:
    """Three isolations, one of which waits longer: only its wait is marked."""
    third = ISOLATION.replace("test-van/isolate", "test-van/isolate-third")
    files = {"procedures/test-van/isolate-again.yml": LONGER, "procedures/test-van/isolate-third.yml": third}
    manual = check(tmp_path, files)
    html = next(page for page in all_pages(manual) if page.url == "test-van/review.html").make().html
    table = html[html.index("<tbody>") : html.index("</tbody>")]

    assert table.count("≠ differs") == 1
    wait = table[table.index(">Wait<") : table.index(">Proof<")]
    assert "written 8\u00a0min" in wait.partition("≠ differs")[0].rpartition("<td")[2]


def test_what_is_not_proved_is_not_compared_and_said(tmp_path: Path) -> None:
    """A procedure with an error stands below the table."""
    manual = check(tmp_path, {PLACES["procedure"]: PROCEDURE + "    time: 5 Nm\n"})
    html = next(page for page in all_pages(manual) if page.url == "test-van/review.html").make().html

    assert "Not compared" in html and '<a href="../test-van/job.html">Test job</a>' in html


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        (["a", "a", "b"], [False, False, True]),
        (["a", "b"], [True, True]),
        (["a", "a", "b", "b"], [True, True, True, True]),
        (["a", None], [False, False]),
        (["a"], [False]),
        ([], []),
    ],
)
def test_what_most_do_is_usual(keys: list[Hashable], expected: list[bool]) -> None:
    """Where no way is more common than another, each is marked."""
    usual = usual_of(keys)

    assert expected == [differs(key, usual) for key in keys]


@given(st.lists(st.sampled_from(["a", "b", "c", None])))
def test_something_is_marked_just_where_not_all_do_the_same(keys: list[Hashable]) -> None:
    """No difference is passed over, and none is seen where there is none."""
    usual = usual_of(keys)

    assert (len({key for key in keys if key is not None}) > 1) == any(differs(key, usual) for key in keys)
