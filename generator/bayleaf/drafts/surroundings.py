"""What a draft is made from: the profile of a vehicle, its procedures, and what the workshop owns."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from ..manual import Manual
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from ..safety.rig import Rig
from .yaml_text import Data


@dataclass(frozen=True)
class Around:
    """Of one vehicle. `folder` is its name, `procedures` are its own by id, `raw` their plain data as it is written."""

    folder: str
    vehicle: Vehicle
    workshop: Workshop
    procedures: Mapping[str, Procedure]
    raw: Mapping[str, Data]

    @cached_property
    def rig(self) -> Rig:
        """The vehicle as the walk sees it."""
        return Rig(self.vehicle)

    def of_kind(self, kind: str) -> tuple[Procedure, ...]:
        """The procedures of the vehicle of this kind that could be read whole."""
        return tuple(
            one for one in self.procedures.values() if one.kind == kind and one.shape_is_whole and not one.broken
        )


def around_of(manual: Manual, folder: str) -> Around:
    """What a manual knows of a vehicle."""
    own = {name: one for name, one in manual.procedures.items() if one.folder == folder}
    raw = {name: manual.sources[one.file].data for name, one in own.items()}
    return Around(folder, manual.vehicles[folder], manual.workshop, own, raw)
