"""What a step does: a closed set of actions, each a frozen value.

`key` is the word of the file; there is one class a key, and no other action exists.
"""

from dataclasses import dataclass
from typing import ClassVar

from ..diagnostics.place import Path
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity
from .contact import Contact

Pair = tuple[Contact, Contact]


@dataclass(frozen=True, slots=True)
class Do:
    """Something described in words alone."""

    key: ClassVar[str] = "do"


@dataclass(frozen=True, slots=True)
class SetMode:
    """The vehicle is brought into a mode."""

    key: ClassVar[str] = "set"
    mode: str


@dataclass(frozen=True, slots=True)
class Disconnect:
    """Isolation points are opened; harmless on one that is open already."""

    key: ClassVar[str] = "disconnect"
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Reconnect:
    """Isolation points are closed."""

    key: ClassVar[str] = "reconnect"
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Secure:
    """Open isolation points are locked."""

    key: ClassVar[str] = "secure"
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Release:
    """The locks of isolation points come off."""

    key: ClassVar[str] = "release"
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Unplug:
    """The halves of connectors are parted."""

    key: ClassVar[str] = "unplug"
    connectors: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plug:
    """The halves of connectors are joined."""

    key: ClassVar[str] = "plug"
    connectors: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Remove:
    """Parts or covers come off."""

    key: ClassVar[str] = "remove"
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Refit:
    """Parts or covers go back; `new` where a new one is fitted."""

    key: ClassVar[str] = "refit"
    parts: tuple[str, ...]
    new: bool


@dataclass(frozen=True, slots=True)
class Loosen:
    """Fasteners are loosened: names of the profile, or words."""

    key: ClassVar[str] = "loosen"
    fasteners: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tighten:
    """Fasteners are tightened.

    With `torque` None the names are fasteners of the profile, which hold the torque;
    else the text describes a fastener that the profile does not know.
    """

    key: ClassVar[str] = "tighten"
    fasteners: tuple[str, ...]
    torque: Limit | None
    then_turn: Quantity | None
    size: str | None
    property_class: str | None
    new: bool
    described: bool


@dataclass(frozen=True, slots=True)
class Drain:
    """What a circuit holds is let out."""

    key: ClassVar[str] = "drain"
    circuit: str
    amount: Limit | None
    into: str | None


@dataclass(frozen=True, slots=True)
class Fill:
    """A circuit is filled: with so much, or up to this pressure."""

    key: ClassVar[str] = "fill"
    circuit: str
    amount: Limit | None
    medium: str | None

    @property
    def is_pressed(self) -> bool:
        """Whether it is filled up to a pressure."""
        return self.amount is not None and self.amount.quantity == "pressure"


@dataclass(frozen=True, slots=True)
class OpenValve:
    """A valve or clip that is no isolation point is opened."""

    key: ClassVar[str] = "open"
    what: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CloseValve:
    """A valve or clip that is no isolation point is closed."""

    key: ClassVar[str] = "close"
    what: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FitTemporary:
    """A bridge, adapter or cap is fitted and owed back; `joins` where it connects two contacts."""

    key: ClassVar[str] = "fit_temporary"
    name: str
    where: tuple[str, ...]
    joins: Pair | None


@dataclass(frozen=True, slots=True)
class RemoveTemporary:
    """What was fitted for the time being comes off."""

    key: ClassVar[str] = "remove_temporary"
    name: str


@dataclass(frozen=True, slots=True)
class Wait:
    """Time passes; `what_for` names circuits or gives a reason."""

    key: ClassVar[str] = "wait"
    time: Quantity | None
    what_for: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ProveDead:
    """A circuit is shown dead; `pairs` empty means all test points of the profile."""

    key: ClassVar[str] = "prove_dead"
    circuit: str
    pairs: tuple[Pair, ...]
    using: str | None
    proved_before: str | None
    proved_after: str | None
    limit: Limit | None
    take: str | None
    current_kind: str | None


@dataclass(frozen=True, slots=True)
class ProveSafe:
    """A circuit of another energy is read as safe; `limit` None means those of the profile."""

    key: ClassVar[str] = "prove_safe"
    circuit: str
    using: str | None
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class Measure:
    """A value is measured with an instrument."""

    key: ClassVar[str] = "measure"
    what: str
    quantity: str
    current_kind: str | None
    pairs: tuple[Pair, ...]
    around: str | None
    where: tuple[str, ...]
    using: str | None
    take: str | None
    read_after: Quantity | None
    test_voltage: Quantity | None
    test_current: Quantity | None
    discharged: Limit | None
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class Read:
    """A value is read on the scan tool or on a gauge of the vehicle."""

    key: ClassVar[str] = "read"
    what: str
    quantity: str | None
    origin: str | None
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class Command:
    """The scan tool makes the vehicle do something; `energises` names circuits that become live by it."""

    key: ClassVar[str] = "command"
    what: str
    to: str | None
    energises: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Energise:
    """Circuits are made live on purpose."""

    key: ClassVar[str] = "energise"
    circuits: tuple[str, ...]
    means: str | None


@dataclass(frozen=True, slots=True)
class Discharge:
    """What is left in a circuit is taken out, and the rest is read at the same pins."""

    key: ClassVar[str] = "discharge"
    circuit: str
    pairs: tuple[Pair, ...]
    using: str | None
    means: str | None
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class Turn:
    """Wheels, belt or shaft are turned, towed or rolled."""

    key: ClassVar[str] = "turn"
    what: str
    speed: Quantity | None


@dataclass(frozen=True, slots=True)
class Compute:
    """A value is computed from readings of earlier steps; `resistor` is the known one of the voltmeter method."""

    key: ClassVar[str] = "compute"
    what: str
    formula: str
    of: tuple[str, ...]
    quantity: str | None
    limit: Limit | None
    resistor: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer to a question; `then` None where the author forgot to say what follows."""

    at: Path
    text: str
    then: str | None


@dataclass(frozen=True, slots=True)
class Ask:
    """A question that looking answers."""

    key: ClassVar[str] = "ask"
    question: str
    answers: tuple[Answer, ...]


@dataclass(frozen=True, slots=True)
class Perform:
    """Another procedure is done here."""

    key: ClassVar[str] = "perform"
    procedure: str


@dataclass(frozen=True, slots=True)
class Pause:
    """Work is broken off or handed over."""

    key: ClassVar[str] = "pause"
    why: str


Action = (
    Do | SetMode | Disconnect | Reconnect | Secure | Release | Unplug | Plug | Remove | Refit | Loosen
    | Tighten | Drain | Fill | OpenValve | CloseValve | FitTemporary | RemoveTemporary | Wait | ProveDead
    | ProveSafe | Measure | Read | Command | Energise | Discharge | Turn | Compute | Ask | Perform | Pause
)  # fmt: skip

#: Actions whose result decides what follows.
Judged = ProveDead | ProveSafe | Measure | Read | Discharge | Compute
