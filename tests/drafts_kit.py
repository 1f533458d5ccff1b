"""Drafts made and judged as `bayleaf draft` does, without the console."""

import shutil
from datetime import date
from functools import cache
from pathlib import Path

from bayleaf.diagnostics.finding import Finding
from bayleaf.drafts.asked import Asked
from bayleaf.drafts.procedure import Draft, draft
from bayleaf.drafts.surroundings import Around, around_of
from bayleaf.loading.tidying.tidy import Tidied, tidied
from bayleaf.manual import ManualKeeper
from bayleaf.manual_files import File

ROOT = Path(__file__).resolve().parents[1]
DAY = date(2026, 11, 29)
VEHICLES = ("granbrook-t8", "larkway-m12", "thistledown-v4")


class Bench:
    """One manual, in which drafts are made and judged without being written."""

    def __init__(self, folder: Path) -> None:
        self.keeper = ManualKeeper(folder)
        self.manual = self.keeper.manual(DAY)

    @cache  # noqa: B019 - there are few, and they live as long as the tests
    def around(self, vehicle: str) -> Around:
        """What the manual knows of a vehicle."""
        return around_of(self.manual, vehicle)

    def draft(self, vehicle: str, kind: str, *touched: str, codes: tuple[str, ...] = ()) -> Draft:
        """The draft of a job that touches these things, for these trouble codes."""
        asked = Asked("drafted", "A drafted job", kind, codes=codes, touched=touched)
        return draft(asked, self.around(vehicle), DAY)

    def findings(self, file: str, text: str) -> tuple[Finding, ...]:
        """What the whole manual says of a procedure with this text, but for the places that are still to be filled."""
        manual = self.keeper.manual(DAY, drafts={File(file, "procedure"): text.encode()})
        return tuple(one for one in manual.by_file.get(file, ()) if one.rule != "todo-left")


@cache
def demo() -> Bench:
    """The manual of this project."""
    return Bench(ROOT)


def bare(folder: Path) -> Bench:
    """The three vehicles and the workshop of this project, without any procedure."""
    for vehicle in VEHICLES:
        (folder / "procedures" / vehicle).mkdir(parents=True)
        shutil.copy(ROOT / "procedures" / vehicle / "vehicle.yml", folder / "procedures" / vehicle)
        if (ROOT / "procedures" / vehicle / "photos").is_dir():
            shutil.copytree(ROOT / "procedures" / vehicle / "photos", folder / "procedures" / vehicle / "photos")
    shutil.copy(ROOT / "procedures" / "workshop.yml", folder / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    return Bench(folder)


def is_tidy(draft: Draft) -> bool:
    """Whether `bayleaf tidy` leaves the file as it is."""
    found = tidied(draft.file, draft.text.encode(), "procedure")
    return isinstance(found, Tidied) and found.is_tidy
