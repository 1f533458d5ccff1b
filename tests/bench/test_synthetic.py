"""The benchmark's manuals are what the benchmark says of them. Nothing here measures time."""

import sys
from collections import Counter
from pathlib import Path

import pytest
import yaml
from bayleaf.manual import Manual, load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.model import actions
from bayleaf.pages.all import all_pages
from demo_kit import DAY

sys.path.insert(0, str(Path(__file__).parent))  # the scripts of this folder find each other by name

import floors  # noqa: E402
import searching  # noqa: E402
import synthetic  # noqa: E402

NUMBER = 12


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A manual with twelve synthetic procedures."""
    folder = tmp_path_factory.mktemp("synthetic")
    synthetic.write_manual(folder, NUMBER)
    return folder


@pytest.fixture(scope="module")
def manual(folder: Path) -> Manual:
    """The same, read and checked."""
    return load_manual(folder, DAY)


def jobs(manual: Manual) -> list[str]:
    """The ids of the synthetic procedures."""
    return [name for name in manual.procedures if name.split("/")[1].startswith(("find-", "replace-"))]


def test_synthetic_procedures_check_clean(manual: Manual) -> None:
    """A benchmark over files with findings would measure the findings."""
    assert () == manual.findings
    assert len(jobs(manual)) == NUMBER


@pytest.mark.parametrize("kind", synthetic.SPREAD)
def test_step_kinds_are_spread_as_stated(folder: Path, manual: Manual, kind: str) -> None:
    """Each kind of step stands in just as many procedures as `SPREAD` says."""
    found = 0
    for name in jobs(manual):
        data = yaml.load((folder / "procedures" / f"{name}.yml").read_text("utf-8"), Loader=yaml.CBaseLoader)
        alone = kind != "do"
        found += any(kind in step and (alone or set(step) <= {"id", "do", "on", "by", "expect", "time", "then"})
                     for step in data["steps"])  # fmt: skip
    assert NUMBER / synthetic.SPREAD[kind] == found


def test_no_kind_of_step_is_used_unstated(manual: Manual) -> None:
    """`SPREAD` holds every kind that the procedures use."""
    used = {type(step.action).key for name in jobs(manual) for step in manual.procedures[name].steps}
    assert set() == used - set(synthetic.SPREAD)


def test_every_procedure_isolates_branches_proves_measures_asks_and_tightens(manual: Manual) -> None:
    """No procedure is a toy."""
    wanted = {actions.Perform, actions.ProveDead, actions.Measure, actions.Ask, actions.Tighten}
    for name in jobs(manual):
        procedure = manual.procedures[name]
        performed = [step.action.procedure for step in procedure.steps if isinstance(step.action, actions.Perform)]
        assert wanted <= {type(step.action) for step in procedure.steps}
        assert f"{procedure.folder}/isolate-traction" in performed
        assert len([edge for edge in manual.graph(procedure).edges if edge.at is not None]) >= 10
        assert procedure.messages and procedure.conclusions


def test_codes_connectors_and_part_numbers_are_unique(manual: Manual) -> None:
    """What the search is asked for stands in one procedure only."""
    codes = Counter(code for name in jobs(manual) for code in manual.procedures[name].trouble_codes)
    connectors: Counter[str] = Counter()
    for name in jobs(manual):
        steps = manual.procedures[name].steps
        unplugged = {one for step in steps if isinstance(step.action, actions.Unplug) for one in step.action.connectors}
        connectors.update(one for one in unplugged if int(one.removeprefix("X")) >= 1000)
    numbers = [part.numbers[0].number for vehicle in manual.vehicles.values() for part in vehicle.parts.values()
               if part.numbers and part.numbers[0].number.startswith("SY-")]  # fmt: skip
    assert {1} == set(codes.values()) == set(connectors.values())
    assert len(codes) == len(numbers) == len(set(numbers)) == NUMBER


def test_codes_are_unique_up_to_ten_thousand() -> None:
    """A larger benchmark does not run out of codes."""
    assert 10_000 == len({synthetic.trouble_code(number) for number in range(10_000)})


def test_same_seed_gives_the_same_bytes(tmp_path: Path) -> None:
    """Two benchmarks with one seed measure the same files; another seed gives others."""
    sets = [synthetic.write_manual(tmp_path / str(run), 5, seed) for run, seed in enumerate((1, 1, 2))]
    texts = [[(tmp_path / str(run) / file).read_bytes() for file in sets[run].files] for run in range(3)]
    assert texts[0] == texts[1]
    assert texts[0] != texts[2]


def test_procedures_hold_about_ten_thousand_bytes(folder: Path, manual: Manual) -> None:
    """The size the benchmark is for."""
    sizes = [(folder / manual.procedures[name].file).stat().st_size for name in jobs(manual)]
    assert 9_000 < min(sizes)
    assert max(sizes) < 12_500


def test_floor_b_gets_a_page_for_every_file(folder: Path, tmp_path: Path) -> None:
    """The plain pages hold the same text: every word of a step is found in its page."""
    pages = floors.write_plain_pages(folder, tmp_path / "plain")
    assert len(list((folder / "procedures").rglob("*.yml"))) == pages
    name = "synthetic-001/find-fault-in-front-blower-1"
    text = (tmp_path / "plain" / "docs" / f"{name}.md").read_text(encoding="utf-8")
    source = (folder / "procedures" / f"{name}.yml").read_text(encoding="utf-8")
    values = yaml.load(source, Loader=yaml.CBaseLoader)["steps"][0].values()
    assert all(value in text for value in values if isinstance(value, str) and value != "wake")


def test_every_code_connector_and_part_number_is_the_first_hit(manual: Manual, browser: object, tmp_path: Path) -> None:
    """In the real pages, asked on the page of a vehicle; the bench asks the same of a manual with a thousand procedures."""
    open_shell(manual.folder / "mkdocs.yml", all_pages(manual), manual.findings).write(tmp_path / "site")
    things = synthetic.things(NUMBER)

    assert 4 * NUMBER == len(set(things))
    assert [] == searching.not_first(browser, tmp_path / "site", things)
