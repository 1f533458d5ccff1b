"""What the workshop owns and has decided."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from ..diagnostics.place import Path
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Greatest error of an instrument: `percent` of the reading plus `digits` of the last place."""

    percent: Fraction
    digits: int


@dataclass(frozen=True, slots=True)
class Range:
    """One range of one function of an instrument."""

    at: Path
    top: Quantity | None
    resolution: Quantity | None
    accuracy: Accuracy | None
    test_current: Quantity | None
    test_voltage: Quantity | None


@dataclass(frozen=True, slots=True)
class Instrument:
    """A measuring instrument; `functions` by name, ranges from the smallest up."""

    at: Path
    id: str
    name: str
    kind: str | None
    category: str | None
    highest_dc: Quantity | None
    lowest_indication: Quantity | None
    calibrated: date | None
    interval: Quantity | None
    functions: Mapping[str, tuple[Range, ...]]
    range: Limit | None
    accuracy: Accuracy | None
    length: Quantity | None
    location: str | None


@dataclass(frozen=True, slots=True)
class ProvingUnit:
    """A source on which a voltage tester is proved."""

    at: Path
    id: str
    name: str
    voltage: Quantity | None
    checked: date | None
    interval: Quantity | None


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool that is not a measuring instrument."""

    at: Path
    id: str
    name: str
    insulated_to: Quantity | None
    location: str | None


@dataclass(frozen=True, slots=True)
class Protection:
    """Personal protection; `glove_class` as in IEC 60903: 00, 0, 1 to 4. With it, `kind` may be left out."""

    at: Path
    id: str
    name: str
    kind: str | None
    glove_class: str | None
    tested: date | None
    interval: Quantity | None
    voltage: Quantity | None
    location: str | None


@dataclass(frozen=True, slots=True)
class Policy:
    """What this workshop asks for beyond the floor."""

    dead_below: Quantity | None = None
    guard_band: Fraction | None = None
    proof_holds: Quantity | None = None
    allow_vin: bool = False


@dataclass(frozen=True, slots=True)
class Workshop:
    """The workshop file as a whole; an empty one where there is none."""

    file: str
    name: str | None = None
    instruments: Mapping[str, Instrument] = field(default_factory=dict)
    proving_units: Mapping[str, ProvingUnit] = field(default_factory=dict)
    tools: Mapping[str, Tool] = field(default_factory=dict)
    protection: Mapping[str, Protection] = field(default_factory=dict)
    policy: Policy = Policy()
    labour_rate: str | None = None
    broken: bool = False
