"""What is said of a record: of each entry, and of the way they went through the procedure."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..model.record import Entry
from .computed import Computed
from .job_steps import Ended, JobStep
from .readings import Weighed
from .torques import Tightened


@dataclass(frozen=True, slots=True)
class Followed:
    """One entry with what is said of it.

    `before` is the step that was done last, `blocked` a step between them that decides what follows and has no result;
    `follows` is False where no path leads from the one to this one. `barred`: the exit is another than the verdict
    takes. `not_there`: the answer or exit that the step does not have. `unproved`: circuits that the step touches as
    dead though they have not been proved again, of those that are `lost` before it; of them `aged` are those whose
    proof has grown too old, with its time.
    """

    entry: Entry
    step: JobStep | None
    weighed: Weighed | None = None
    computed: Computed | None = None
    torque: Tightened | None = None
    follows: bool = True
    before: JobStep | None = None
    blocked: JobStep | None = None
    barred: bool = False
    not_there: str | None = None
    unproved: tuple[str, ...] = ()
    lost: tuple[str, ...] = ()
    aged: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Way:
    """A whole record: its entries, where it ends (None: not at an end), what comes next, what is missing on the way.

    `lost` are circuits that were proved and do not count as proved at the end.
    """

    entries: tuple[Followed, ...]
    end: Ended | None
    following: tuple[JobStep, ...]
    missing: tuple[tuple[JobStep, str], ...]
    lost: tuple[str, ...]
