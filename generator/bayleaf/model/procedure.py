"""A procedure: steps in the order of the file, already unfolded where the same steps are done at several places."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from ..diagnostics.place import Path
from ..quantities.quantity import Quantity
from .actions import Action
from .cited import Cited
from .common import Built, Conditions, Message, Photo, State, Waiver

#: Targets that every procedure has.
NEXT, STOP, END = "next", "stop", "end"
RESERVED_TARGETS = frozenset({NEXT, STOP, END})


@dataclass(frozen=True, slots=True)
class Step:
    """One step.

    `number` is what the reader sees ("7", or "5.3" within a group); `id` is None where none is written.
    `group` is the place of a repeated group ("X7"), `starts_group` marks its first step.
    `outcomes` are those written in the file, in their order, as (exit, target). `cited` is the rule by
    which the limits are computed; `has_limits` tells limits that cannot be read from none at all.
    """

    at: Path
    number: str
    id: str | None
    action: Action
    detail: str | None = None
    on: tuple[str, ...] = ()
    when: Conditions | None = None
    only_for: tuple[str, ...] = ()
    messages: tuple[Message, ...] = ()
    photo: Photo | None = None
    expect: str | None = None
    time: Quantity | None = None
    attended: bool | None = None
    people: int | None = None
    by: str | None = None
    tools: tuple[str, ...] = ()
    wear: tuple[str, ...] = ()
    source: str | None = None
    then: str | None = None
    repeat: int | None = None
    exhausted: str | None = None
    outcomes: tuple[tuple[str, str], ...] = ()
    cited: Cited | None = None
    group: str | None = None
    starts_group: bool = False
    broken: bool = False
    has_limits: bool = False

    @property
    def anchor(self) -> str:
        """The anchor of this step on its page."""
        return "step-" + (self.id or self.number).replace("@", "-at-").replace("/", "-")


@dataclass(frozen=True, slots=True)
class Conclusion:
    """An end of a procedure; `stops` where nobody goes on (quarantine)."""

    at: Path
    id: str
    finding: str
    stops: bool
    say: str | None
    repair: tuple[str, ...]
    parts: tuple[str, ...]
    leaves: tuple[tuple[str, State], ...]
    stays_off: tuple[str, ...]
    broken: bool = False


@dataclass(frozen=True, slots=True)
class Revision:
    """A revision; `date` is None where it cannot be read."""

    at: Path
    number: int | None
    date: date | None
    why: str
    by: str | None


@dataclass(frozen=True, slots=True)
class PartNeeded:
    """A part to have ready."""

    at: Path
    part: str
    count: int
    when: str | None


@dataclass(frozen=True, slots=True)
class Procedure:
    """The procedure as a whole. `file` is relative to the manual; `folder` names its vehicle.

    `shape_is_whole` is False where a step could not be read: then nothing is said about its flow.
    """

    file: str
    folder: str
    id: str
    title: str
    kind: str
    system: str | None = None
    about: str | None = None
    variants: tuple[str, ...] = ()
    built: Built | None = None
    trouble_codes: tuple[str, ...] = ()
    symptoms: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    handles: tuple[str, ...] = ()
    expects: tuple[tuple[str, State], ...] = ()
    leaves: tuple[tuple[str, State], ...] = ()
    stays_off: tuple[str, ...] = ()
    revisions: tuple[Revision, ...] = ()
    people: int | None = None
    qualification: str | None = None
    roles: Mapping[str, str] = field(default_factory=dict)
    time: Quantity | None = None
    tools: tuple[str, ...] = ()
    consumables: tuple[str, ...] = ()
    parts: tuple[PartNeeded, ...] = ()
    messages: tuple[Message, ...] = ()
    steps: tuple[Step, ...] = ()
    conclusions: Mapping[str, Conclusion] = field(default_factory=dict)
    waivers: tuple[Waiver, ...] = ()
    shape_is_whole: bool = True
    broken: bool = False

    def step_named(self, name: str) -> Step | None:
        """The step with this id, else the one with this number."""
        by_id = next((step for step in self.steps if step.id == name), None)
        return by_id or next((step for step in self.steps if step.number == name), None)

    @property
    def photos(self) -> tuple[Photo, ...]:
        """The photos of the steps that could be read; those of a repeated group once."""
        found = {step.photo.at: step.photo for step in self.steps if step.photo is not None and not step.broken}
        return tuple(found.values())
