"""The page that opens first, where the author wrote none."""

from ..manual import Manual
from .body import Body
from .indexes import index_body
from .layout import Entry, Section
from .vehicle_page import entry, procedures_of


def home_body(manual: Manual) -> Body:
    """The vehicles with their procedures, and the ways in."""
    title = manual.workshop.name or "Service procedures"
    sections = [
        Section(vehicle.name, folder, tuple(entry(one, "") for one in procedures_of(folder, manual)))
        for folder, vehicle in manual.vehicles.items()
    ]
    ways = (
        Entry("codes.html", "Trouble codes"), Entry("systems.html", "Systems"), Entry("parts.html", "Parts"),
        Entry("torques.html", "Torques"), Entry("limits.html", "Limits"), Entry("tools.html", "Tools"),
        Entry("calculators.html", "Calculators"),
    )  # fmt: skip
    sections.append(Section("Look it up", "look-up", ways))
    body = index_body(
        title, "Pick a vehicle, or search for a trouble code, a connector or a part number.", sections, ""
    )
    return Body(body.html, body.toc, body.search, ())
