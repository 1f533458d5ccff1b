"""What an exit of a step changes on the vehicle. Pure data: the walk decides what follows from it."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ..model import actions
from ..model.actions import Pair
from ..model.contact import CHASSIS
from ..model.procedure import NEXT, Step
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity


@dataclass(frozen=True, slots=True)
class ModeSet:
    """The vehicle is in this mode now."""

    mode: str


@dataclass(frozen=True, slots=True)
class Opened:
    """An isolation point is open."""

    point: str


@dataclass(frozen=True, slots=True)
class Closed:
    """An isolation point is closed."""

    point: str


@dataclass(frozen=True, slots=True)
class Secured:
    """An isolation point is locked."""

    point: str


@dataclass(frozen=True, slots=True)
class Released:
    """The lock of an isolation point is off."""

    point: str


@dataclass(frozen=True, slots=True)
class Unplugged:
    """The halves of a connector are parted."""

    connector: str


@dataclass(frozen=True, slots=True)
class Plugged:
    """The halves of a connector are joined."""

    connector: str


@dataclass(frozen=True, slots=True)
class TakenOff:
    """A part or cover is off."""

    part: str


@dataclass(frozen=True, slots=True)
class PutBack:
    """A part or cover is on."""

    part: str


@dataclass(frozen=True, slots=True)
class Loosened:
    """A fastener is loose."""

    fastener: str


@dataclass(frozen=True, slots=True)
class Tightened:
    """A fastener is tight."""

    fastener: str


@dataclass(frozen=True, slots=True)
class Emptied:
    """A circuit is drained."""

    circuit: str


@dataclass(frozen=True, slots=True)
class Filled:
    """A circuit is filled; `is_pressed` where it is filled up to a pressure."""

    circuit: str
    is_pressed: bool = False


@dataclass(frozen=True, slots=True)
class TemporaryFitted:
    """A bridge, adapter or cap is on and owed back; `joins` where it connects two contacts."""

    name: str
    joins: Pair | None


@dataclass(frozen=True, slots=True)
class TemporaryRemoved:
    """A bridge, adapter or cap is off again."""

    name: str


@dataclass(frozen=True, slots=True)
class Waited:
    """Seconds have passed by a wait; None where the wait could not be read, and counts as none."""

    seconds: Fraction | None


@dataclass(frozen=True, slots=True)
class ProvedDead:
    """A circuit was shown dead at these pairs; no pairs means all of the profile."""

    circuit: str
    pairs: tuple[Pair, ...]
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class FoundNotDead:
    """A circuit that should be dead is not."""

    circuit: str


@dataclass(frozen=True, slots=True)
class ProvedSafe:
    """A circuit of another energy was read as safe; no limit means all those of the profile."""

    circuit: str
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class ProofLost:
    """A circuit that was proved before was read once more, and not as dead or safe; no limit means all its readings."""

    circuit: str
    limit: Limit | None


@dataclass(frozen=True, slots=True)
class VoltageRead:
    """A voltage was read within its limit at these pairs."""

    pairs: tuple[Pair, ...]
    limit: Limit


@dataclass(frozen=True, slots=True)
class HousingRead:
    """The voltage between the chassis and these housings was read within its limit."""

    places: tuple[str, ...]
    limit: Limit


@dataclass(frozen=True, slots=True)
class BondRead:
    """The bond of these housings was measured, whatever was read."""

    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CurrentRead:
    """The current in a cable was read within its limit, by a clamp round it."""

    cable: str
    limit: Limit


@dataclass(frozen=True, slots=True)
class TestVoltageApplied:
    """An insulation tester has put its voltage on these pairs; `discharged` where the rest was read there."""

    pairs: tuple[Pair, ...]
    voltage: Quantity | None
    discharged: bool


@dataclass(frozen=True, slots=True)
class Discharged:
    """What was left in a circuit is out, read at these pairs within a limit; None where it could not be read."""

    circuit: str
    pairs: tuple[Pair, ...]
    limit: Limit | None = None


@dataclass(frozen=True, slots=True)
class Energised:
    """A circuit was made live on purpose; `by_command` where a control unit did it, which no open plug lets through."""

    circuit: str
    by_command: bool


@dataclass(frozen=True, slots=True)
class Turned:
    """Wheels, belt or shaft have turned."""

    what: str
    speed: Quantity | None


@dataclass(frozen=True, slots=True)
class Interrupted:
    """Nobody watched the vehicle for a while."""


@dataclass(frozen=True, slots=True)
class Performed:
    """Another procedure was done and came back by this conclusion, or by its plain end (None)."""

    procedure: str
    conclusion: str | None


Effect = (
    ModeSet | Opened | Closed | Secured | Released | Unplugged | Plugged | TakenOff | PutBack | Loosened
    | Tightened | Emptied | Filled | TemporaryFitted | TemporaryRemoved | Waited | ProvedDead | FoundNotDead
    | ProvedSafe | ProofLost | VoltageRead | HousingRead | BondRead | CurrentRead | TestVoltageApplied | Discharged
    | Energised | Turned | Interrupted | Performed
)  # fmt: skip


def effects_of(step: Step, exit: str) -> tuple[Effect, ...]:
    """What leaving a step by this exit has changed. The exit decides: a failed proof proves nothing."""
    action = step.action
    plain = _WHATEVER_THE_EXIT.get(action.__class__)
    if plain is not None:
        return plain(action)
    judged = _BY_THE_EXIT.get(action.__class__)
    return judged(action, exit) if judged is not None else ()


def _of_proof(proof: actions.ProveDead, exit: str) -> tuple[Effect, ...]:
    if exit == "dead":
        return (ProvedDead(proof.circuit, proof.pairs, proof.limit),)
    return (FoundNotDead(proof.circuit),) if exit == "not_dead" else (ProofLost(proof.circuit, None),)


def _of_safe_reading(proof: actions.ProveSafe, exit: str) -> tuple[Effect, ...]:
    return ((ProvedSafe if exit == "within" else ProofLost)(proof.circuit, proof.limit),)


def _of_discharge(action: actions.Discharge, exit: str) -> tuple[Effect, ...]:
    """What is read behind it tells more than a proof before it: a charge that does not go comes from somewhere."""
    if exit == "within":
        return (Discharged(action.circuit, action.pairs, action.limit),)
    return () if exit == NEXT else (ProofLost(action.circuit, None),)


def _of_measurement(measured: actions.Measure, exit: str) -> tuple[Effect, ...]:
    if measured.quantity == "bonding resistance":
        return (BondRead(tuple(name for name in measured.where if name != CHASSIS)),)
    if measured.test_voltage is None and measured.quantity != "insulation resistance":
        if exit != "within" or measured.limit is None:
            return ()
        if measured.quantity == "current" and measured.around is not None:
            return (CurrentRead(measured.around, measured.limit),)
        if measured.quantity == "voltage" and CHASSIS in measured.where:
            return (HousingRead(tuple(name for name in measured.where if name != CHASSIS), measured.limit),)
        return (VoltageRead(measured.pairs, measured.limit),) if measured.quantity == "voltage" else ()
    discharged = measured.discharged is not None and exit != "not_decided"
    return (TestVoltageApplied(measured.pairs, measured.test_voltage, discharged),)


#: Asked for every edge of every graph, so it is looked up by the class of the action. Actions that are in neither
#: of the two change nothing.
_WHATEVER_THE_EXIT: dict[type, Callable[[Any], tuple[Effect, ...]]] = {
    actions.SetMode: lambda action: (ModeSet(action.mode),),
    actions.Disconnect: lambda action: tuple(map(Opened, action.points)),
    actions.Reconnect: lambda action: tuple(map(Closed, action.points)),
    actions.Secure: lambda action: tuple(map(Secured, action.points)),
    actions.Release: lambda action: tuple(map(Released, action.points)),
    actions.Unplug: lambda action: tuple(map(Unplugged, action.connectors)),
    actions.Plug: lambda action: tuple(map(Plugged, action.connectors)),
    actions.Remove: lambda action: tuple(map(TakenOff, action.parts)),
    actions.Refit: lambda action: tuple(map(PutBack, action.parts)),
    actions.Loosen: lambda action: tuple(map(Loosened, action.fasteners)),
    actions.Tighten: lambda action: tuple(map(Tightened, action.fasteners)),
    actions.Drain: lambda action: (Emptied(action.circuit),),
    actions.Fill: lambda action: (Filled(action.circuit, action.is_pressed),),
    actions.FitTemporary: lambda action: (TemporaryFitted(action.name, action.joins),),
    actions.RemoveTemporary: lambda action: (TemporaryRemoved(action.name),),
    actions.Wait: lambda action: (Waited(None if action.time is None else action.time.si),),
    actions.Command: lambda action: tuple(Energised(circuit, True) for circuit in action.energises),
    actions.Energise: lambda action: tuple(Energised(circuit, False) for circuit in action.circuits),
    actions.Turn: lambda action: (Turned(action.what, action.speed),),
    actions.Pause: lambda action: (Interrupted(),),
}
_BY_THE_EXIT: dict[type, Callable[[Any, str], tuple[Effect, ...]]] = {
    actions.ProveDead: _of_proof,
    actions.ProveSafe: _of_safe_reading,
    actions.Measure: _of_measurement,
    actions.Discharge: _of_discharge,
    actions.Perform: lambda action, exit: (Performed(action.procedure, None if exit == "end" else exit),),
}
