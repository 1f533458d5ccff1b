"""Every page of a manual, in the order in which they are made."""

from dataclasses import replace
from functools import cache, partial

from ..manual import Manual
from ..rules.rule import all_rules
from . import indexes
from .body import Page
from .briefing_link import briefing_url, has_briefing
from .briefing_page import briefing_body
from .calculator_page import INDEX as CALCULATORS
from .calculator_page import calculator_pages, calculators_body
from .commands_page import URL as COMMANDS
from .commands_page import commands_body
from .energy_page import Drawn, energy_body
from .format_page import format_body
from .home_page import home_body
from .limit_rules_page import URL as LIMIT_RULES
from .limit_rules_page import limit_rules_body
from .photos import SCRIPT, pictures_of, shows_photos
from .procedure_page import procedure_body
from .review_page import review_body
from .rule_pages import rule_body, rules_body
from .states import States
from .step_view import Performed
from .vehicle_page import vehicle_body
from .working_data import scripts as working_scripts

#: The index pages in the order of the navigation: address, title.
INDEX_PAGES = (
    ("vehicles.html", "Vehicles", indexes.vehicles_body),
    ("codes.html", "Trouble codes", indexes.codes_body),
    ("systems.html", "Systems", indexes.systems_body),
    ("parts.html", "Parts", indexes.parts_body),
    ("torques.html", "Torques", indexes.torques_body),
    ("limits.html", "Limits", indexes.limits_body),
    ("tools.html", "Tools", indexes.tools_body),
    (CALCULATORS, "Calculators", calculators_body),
)


def all_pages(manual: Manual, states: States | None = None) -> tuple[Page, ...]:
    """The pages of a manual. The home page is left out where the author wrote one.

    `states` are the proved states of its procedures, where somebody has them already.
    """
    pages: list[Page] = []
    if not (manual.folder / "procedures" / "index.md").is_file():
        pages.append(Page("index.html", manual.workshop.name or "Service procedures", partial(home_body, manual)))
    pages += [Page(url, title, partial(make, manual)) for url, title, make in INDEX_PAGES]
    performed = Performed(manual, states or States(manual))
    for folder, vehicle in manual.vehicles.items():
        make = partial(vehicle_body, vehicle, folder, manual, performed.states)
        pictures = pictures_of(vehicle.photos, folder, manual.album)
        pages.append(Page(f"{folder}/vehicle.html", vehicle.name, make, (SCRIPT,) if pictures else (), pictures))
        drawn: Drawn = {}
        title = f"Energy map of {vehicle.name}"
        pages.append(Page(f"{folder}/energy.html", title, partial(energy_body, vehicle, folder, manual, drawn)))
        title = f"Vehicle review of {vehicle.name}"
        pages.append(
            Page(f"{folder}/review.html", title, partial(review_body, vehicle, folder, manual, performed, drawn))
        )
    for name, procedure in manual.procedures.items():
        make = partial(procedure_body, procedure, manual, performed)
        pictures = pictures_of(procedure.photos, procedure.folder, manual.album)
        scripts = (SCRIPT, *working_scripts()) if shows_photos(procedure, manual.procedures) else working_scripts()
        pages.append(Page(f"{name}.html", procedure.title, make, scripts, pictures))
        if has_briefing(procedure, manual, performed.states):
            title = f"Safety briefing: {procedure.title}"
            make = partial(briefing_body, procedure, manual, performed)
            pages.append(Page(briefing_url(procedure), title, make))
    return (*pages, *_reference_pages())


@cache
def _reference_pages() -> tuple[Page, ...]:
    """What is the same for every manual. Each is made once in a process, though a site may be made after every save."""
    pages = [Page("rules.html", "Rules", rules_body)]
    pages += [Page(f"rules/{rule.name}.html", rule.title, partial(rule_body, rule)) for rule in all_rules()]
    pages.append(Page(LIMIT_RULES, "Limits by rule", limit_rules_body))
    pages += calculator_pages()
    pages.append(Page("format.html", "The file format", format_body))
    pages.append(Page(COMMANDS, "Commands", commands_body))
    return tuple(replace(page, make=cache(page.make)) for page in pages)
