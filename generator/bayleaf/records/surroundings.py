"""What a record is held against: the procedures, the profile of its vehicle, the workshop."""

from collections.abc import Mapping
from dataclasses import dataclass

from ..model.procedure import Procedure
from ..model.record import Record
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from .digest import digest_of
from .job_steps import JobStep, by_name, can_be_followed, job_steps


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Of one record. `steps` are empty where its procedure is not there or could not be read; `revision` and `digest`
    are those of the file, None also where its flow has a fault and cannot be followed.

    `agrees`: the procedure is the one that was worked by, by revision and, where the record holds one, by digest. Only
    then is anything of the record held against the file. `is_same`: it is so by digest, to the letter.
    """

    procedure: Procedure | None
    vehicle: Vehicle | None
    workshop: Workshop
    steps: tuple[JobStep, ...]
    names: Mapping[str, JobStep]
    revision: int | None
    digest: str | None
    agrees: bool
    is_same: bool = False


def surroundings_of(
    record: Record, known: Mapping[str, Procedure], vehicle: Vehicle | None, workshop: Workshop
) -> Surroundings:
    """What a record is held against; `known` are all procedures of the manual by their id, with their limits."""
    procedure = known.get(record.procedure)
    if procedure is None or not procedure.shape_is_whole:
        return Surroundings(procedure, vehicle, workshop, (), {}, None, None, False)
    steps = job_steps(procedure, known)
    if not can_be_followed(steps, known):
        return Surroundings(procedure, vehicle, workshop, steps, by_name(steps), None, None, False)
    revision = procedure.revisions[0].number if procedure.revisions else None
    digest = digest_of(procedure, known, vehicle)
    agrees = record.revision == revision and record.digest in (None, digest)
    is_same = agrees and record.digest == digest
    return Surroundings(procedure, vehicle, workshop, steps, by_name(steps), revision, digest, agrees, is_same)
