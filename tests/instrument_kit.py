"""A workshop with instruments of known error, and measurements to hold against them."""

from bayleaf.loading.load import load
from bayleaf.model.actions import Measure
from bayleaf.model.workshop import Workshop
from bayleaf.quantities import Limit, parse_limit

WORKSHOP = """\
format: 1
instruments:
  fine:
    name: Fine meter
    functions:
      dc voltage:
        - {range: 6 V, resolution: 1 mV, accuracy: 0.1 % + 2 digits}
        - {range: 60 V, resolution: 10 mV, accuracy: 0.1 % + 2 digits}
  coarse:
    name: Coarse meter
    functions:
      dc voltage:
        - {range: 60 V, resolution: 0.1 V, accuracy: 0.5 % + 2 digits}
        - {range: 600 V, resolution: 1 V, accuracy: 0.5 % + 2 digits}
      resistance:
        - {range: 600 Ω, resolution: 0.1 Ω, accuracy: 1 %}
      temperature:
        - {range: 200 °C, resolution: 0.1 °C, accuracy: 1 % + 5 digits}
  tester:
    name: Insulation tester
    functions:
      insulation resistance:
        - {range: 20 MΩ, resolution: 10 kΩ, accuracy: 3 % + 3 digits, test_voltage: 500 V}
        - {range: 20 MΩ, resolution: 10 kΩ, accuracy: 3 % + 3 digits, test_voltage: 1000 V}
"""


def workshop() -> Workshop:
    """The instruments above."""
    found = load("procedures/workshop.yml", WORKSHOP.encode(), "workshop")
    assert [] == [one.message for one in found.findings]
    assert isinstance(found.model, Workshop)
    return found.model


def measure(quantity: str = "voltage", **changes: object) -> Measure:
    """A measurement, changed."""
    fields: dict[str, object] = {
        "what": "It", "quantity": quantity, "current_kind": None, "pairs": (), "around": None, "where": (), "using": None,
        "take": None, "read_after": None, "test_voltage": None, "test_current": None, "discharged": None, "limit": None,
    }  # fmt: skip
    return Measure(**{**fields, **changes})  # type: ignore[arg-type]


def limit(text: str) -> Limit:
    """A limit as an author writes it."""
    found = parse_limit(text)
    assert isinstance(found, Limit), found
    return found
