"""Torque wrenches: what is set on them for a torque at the nut, and whether their range covers that."""

from collections.abc import Iterator
from dataclasses import dataclass

from ..calculations.torque_wrench import in_range, permitted_deviation, setting_for
from ..model.vehicle import Adapter
from ..model.workshop import Instrument, Workshop


@dataclass(frozen=True, slots=True)
class Setting:
    """A wrench for a torque. `torque` is wanted at the nut, `setting` on the wrench, both in N·m.

    `setting` is None where an adapter is used and the length of the wrench is not known. `deviation` is the per cent by
    which the wrench may be off: as stated for it, else by ISO 6789-1.
    """

    wrench: Instrument
    torque: float
    setting: float | None
    lowest: float
    highest: float
    deviation: float

    @property
    def covers(self) -> bool:
        """Whether the setting lies in the range of the wrench."""
        return self.setting is not None and in_range(self.setting, self.lowest, self.highest)

    @property
    def is_corrected(self) -> bool:
        """Whether the setting is another figure than the torque at the nut."""
        return self.setting is not None and self.setting != self.torque


def wrenches(workshop: Workshop) -> Iterator[Instrument]:
    """The torque wrenches whose range is known, in the order of the file."""
    for instrument in workshop.instruments.values():
        limit = instrument.range
        if instrument.kind != "torque wrench" or limit is None or limit.quantity != "torque":
            continue
        if limit.low is not None and limit.high is not None and 0 < limit.low.si < limit.high.si:
            yield instrument


def setting_on(wrench: Instrument, torque: float, adapter: Adapter | None) -> Setting:
    """What is set on a wrench for a torque at the nut (N·m), with an adapter or without."""
    limit = wrench.range
    assert limit is not None and limit.low is not None and limit.high is not None
    highest = float(limit.high.si)
    stated = wrench.accuracy
    deviation = float(stated.percent) if stated is not None else permitted_deviation(highest)
    return Setting(wrench, torque, _setting(wrench, torque, adapter), float(limit.low.si), highest, deviation)


def _setting(wrench: Instrument, torque: float, adapter: Adapter | None) -> float | None:
    if adapter is None or adapter.length is None:
        return torque
    if wrench.length is None or wrench.length.si <= 0:
        return None
    angle = float(adapter.angle.si) if adapter.angle is not None else 0.0
    try:
        return setting_for(torque, float(wrench.length.si) * 1000, float(adapter.length.si) * 1000, angle)
    except ValueError:  # an adapter that points back behind the grip, or a torque below nothing
        return None
