"""The judges that are held against each other. Another one is another line here."""

from collections.abc import Iterator, Mapping

from bayleaf.graph.build import build_graph
from bayleaf.model.actions import Perform
from bayleaf.model.facts import facts_of
from bayleaf.model.procedure import Procedure
from bayleaf.model.vehicle import Vehicle
from bayleaf.safety.passage import Hit
from bayleaf.safety.survey import Survey, Surveyor
from bayleaf.safety.walk_joined import JoinedWalk
from bayleaf.safety.walk_things import ThingHit

from .judge import Found, judge
from .quotas import Judging

#: What the oracle calls the demands of the walk; what is not here, it does not judge.
NAMES = {
    "touch": "touch",
    "cover": "cover",
    "prove": "prove",
    "discharge": "prove",
    "probe": "probe",
    "housing": "housing",
    "beside": "beside",
    "made live": "made live",
    "not dead": "not dead",
    "expects": "expects",
    "secure": "secure",
    "reconnect": "reconnect",
    "first": "disconnect",
    "only when": "disconnect",
    "charged": "charged",
}


def walk(name: str, procedures: Mapping[str, Procedure], vehicle: Vehicle) -> frozenset[Found]:
    """What the walk finds in a procedure."""
    surveyor = _surveyor(procedures, vehicle)
    found: set[Found] = set()
    for survey in surveyor.surveys(name):
        hits = [hit for walked in survey.circuits.values() for _, passage in walked for hit in passage.hits]
        for hit in (*hits, *(hit for _, passage in survey.things for hit in passage.hits)):
            demand = NAMES.get(hit.demand.kind)
            subject = hit.demand.circuit if isinstance(hit, Hit) else hit.demand.name
            if demand == "charged":
                subject = hit.demand.thing
            if demand is not None and _is_judged(subject, surveyor):
                found.add(Found(tuple(_path(name, hit, survey)), subject, demand))
    return frozenset(found)


def joined_only(name: str, procedures: Mapping[str, Procedure], vehicle: Vehicle) -> frozenset[Found]:
    """What the walk would find if it only ever joined."""
    surveyor = _surveyor(procedures, vehicle)
    found: set[Found] = set()
    for survey in surveyor.surveys(name):
        for walked in survey.circuits.values():
            for where, _ in walked:
                for hit in JoinedWalk(survey.walker, (where,)).report().hits:
                    if hit.demand.kind in NAMES and _is_judged(hit.demand.circuit, surveyor):
                        path = tuple(_path(name, hit, survey))
                        found.add(Found(path, hit.demand.circuit, NAMES[hit.demand.kind]))
    return frozenset(found)


def _surveyor(procedures: Mapping[str, Procedure], vehicle: Vehicle) -> Surveyor:
    facts = {name: facts_of(one) for name, one in procedures.items()}
    return Surveyor(vehicle, procedures, lambda procedure: build_graph(procedure, facts))


def _is_judged(subject: str, surveyor: Surveyor) -> bool:
    return subject not in surveyor.rig.circuits or surveyor.rig.known(subject).category != "low"


def _path(name: str, hit: Hit | ThingHit, survey: Survey) -> Iterator[str]:
    step = survey.walker.plans[name].graph.steps[hit.step]
    yield step.number
    if hit.inner is not None and isinstance(step.action, Perform):
        yield from _path(step.action.procedure, hit.inner, survey)


JUDGES: Mapping[str, Judging] = {"oracle": judge, "walk": walk}
