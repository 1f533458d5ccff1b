"""How one step of a job follows another one, over steps that decide nothing, and what the readings of a step decide."""

from collections.abc import Container, Iterable, Mapping

from ..model import actions
from .job_steps import Ended, JobStep, Target
from .readings import Weighed

#: Exits by which the work goes on as planned.
GOOD = frozenset({"next", "within", "dead", "end"})
_OUTSIDE = ("above", "below", "not_dead")


def proved_by(step: JobStep) -> str | None:
    """The circuit that a step proves dead or safe, if it is there for that."""
    action = step.step.action
    return action.circuit if isinstance(action, actions.ProveDead | actions.ProveSafe) else None


def decides(step: JobStep) -> bool:
    """Whether it depends on the step what follows it."""
    return sum(name != "exhausted" for name, _ in step.exits) > 1 and step.first is None


def together(
    step: JobStep, places: Iterable[int], readings: Mapping[int, Weighed], shown: bool, residual: Container[int] = ()
) -> str | None:
    """The exit of the readings of a step at these places.

    As planned only if each is; else that of the first outside; else not decided. By the verdicts that were shown, or
    by those of the code. None while one is missing, or is no reading, save at a proof: there one that is outside
    decides at once, and nobody measures on at what is live. The `residual` ones decide nothing, but what a test has
    charged must be read as discharged before there is any exit but “not decided”.
    """
    after = [place for place in places if place in residual]
    exit = _of_tests(step, [place for place in places if place not in after], readings, shown)
    is_discharged = all(place in readings and readings[place].exit(shown) == "within" for place in after)
    return exit if is_discharged or exit == "not_decided" else None


def _of_tests(step: JobStep, places: Iterable[int], readings: Mapping[int, Weighed], shown: bool) -> str | None:
    exits: list[str] = []
    places, names = tuple(places), [name for name, _ in step.exits]
    if proved_by(step) is not None:
        shown_exits = (readings[place].exit(shown) for place in places if place in readings)
        outside = next((exit for exit in shown_exits if exit in _OUTSIDE), None)
        if outside is not None:
            return outside
    for place in places:
        if place not in readings:
            return None
        exit = readings[place].exit(shown)
        if exit is None:
            if len(names) > 1 and readings[place].limit is not None:
                return None
            exit = names[0]
        exits.append(exit)
    first = (next((exit for exit in exits if exit in group), None) for group in (_OUTSIDE, ("not_decided",)))
    return next((exit for exit in first if exit is not None), exits[0] if exits else None)


class Passing:
    """The steps of a job for one version of the vehicle, and the ways between them."""

    def __init__(self, steps: tuple[JobStep, ...], variant: str | None, variants: Container[str]) -> None:
        self.by_path = {step.path: step for step in steps}
        self.variant = variant if variant in variants else None
        self.variants = variants

    def fits(self, step: JobStep) -> bool:
        """Whether the step is for this vehicle; it is wherever a name of a version is not known."""
        only = step.step.only_for
        return not only or self.variant in (None, *only) or any(name not in self.variants for name in only)

    def over(self, places: Iterable[Target], step: JobStep) -> tuple[JobStep, ...] | None:
        """The steps between, where a way leads over steps alone that decide nothing; None where there is none."""
        return self._way(places, step, over_all=False)

    def blocking(self, places: Iterable[Target], step: JobStep) -> JobStep | None:
        """The first step on the shortest way that decides what follows, where a way leads there at all."""
        return next((one for one in self._way(places, step, over_all=True) or () if decides(one)), None)

    def _way(self, places: Iterable[Target], step: JobStep, over_all: bool) -> tuple[JobStep, ...] | None:
        came_from: dict[str, str | None] = {}
        waiting: list[str] = []

        def come(targets: Iterable[Target], before: str | None) -> None:
            for target in targets:
                path = self._settled(target)
                if path is not None and path not in came_from:
                    came_from[path] = before
                    waiting.append(path)

        come(places, None)
        for path in waiting:  # grows while it is walked: the nearest first
            if path == step.path or path.startswith(f"{step.path}/"):
                return self._back(came_from, path)
            here = self.by_path[path]
            if over_all or not decides(here):
                come((target for _, target in here.exits), path)
        return None

    def _back(self, came_from: Mapping[str, str | None], path: str) -> tuple[JobStep, ...]:
        way = []
        before = came_from[path]
        while before is not None:
            way.append(self.by_path[before])
            before = came_from[before]
        return tuple(reversed(way))

    def _settled(self, target: Target) -> str | None:
        """The step at which something is to be done: past steps for other vehicles, into what is performed."""
        for _ in self.by_path:
            if isinstance(target, Ended):
                return None
            step = self.by_path[target]
            if not self.fits(step):
                target = step.behind
            elif step.first is not None:
                target = step.first
            else:
                return target
        return None
