"""What an exit of a step changes on the vehicle. Pure data: the walk decides what follows from it."""

from dataclasses import dataclass
from fractions import Fraction

from ..model import actions
from ..model.actions import Pair
from ..model.procedure import Step
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
    """A circuit is filled."""

    circuit: str


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
    """A circuit of another energy was read as safe."""

    circuit: str


@dataclass(frozen=True, slots=True)
class TestVoltageApplied:
    """An insulation tester has put its voltage on these pairs; `discharged` where the rest was read there."""

    pairs: tuple[Pair, ...]
    voltage: Quantity | None
    discharged: bool


@dataclass(frozen=True, slots=True)
class Discharged:
    """What was left in a circuit is out, read at these pairs."""

    circuit: str
    pairs: tuple[Pair, ...]


@dataclass(frozen=True, slots=True)
class Energised:
    """A circuit was made live on purpose."""

    circuit: str


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
    | ProvedSafe | TestVoltageApplied | Discharged | Energised | Turned | Interrupted | Performed
)  # fmt: skip


def effects_of(step: Step, exit: str) -> tuple[Effect, ...]:
    """What leaving a step by this exit has changed. The exit decides: a failed proof proves nothing."""
    match step.action:
        case actions.SetMode(mode):
            return (ModeSet(mode),)
        case actions.Disconnect(points):
            return tuple(map(Opened, points))
        case actions.Reconnect(points):
            return tuple(map(Closed, points))
        case actions.Secure(points):
            return tuple(map(Secured, points))
        case actions.Release(points):
            return tuple(map(Released, points))
        case actions.Unplug(connectors):
            return tuple(map(Unplugged, connectors))
        case actions.Plug(connectors):
            return tuple(map(Plugged, connectors))
        case actions.Remove(parts):
            return tuple(map(TakenOff, parts))
        case actions.Refit(parts, _):
            return tuple(map(PutBack, parts))
        case actions.Loosen(fasteners):
            return tuple(map(Loosened, fasteners))
        case actions.Tighten() as tighten:
            return tuple(map(Tightened, tighten.fasteners))
        case actions.Perform(procedure):
            return (Performed(procedure, None if exit == "end" else exit),)
        case actions.Energise() | actions.Command() as energised:
            circuits = energised.circuits if isinstance(energised, actions.Energise) else energised.energises
            return tuple(map(Energised, circuits))
        case _:
            return _of_readings(step, exit)


def _of_readings(step: Step, exit: str) -> tuple[Effect, ...]:
    """The effects of waiting, reading, measuring and of what is fitted for the time being."""
    match step.action:
        case actions.Wait(time, _):
            return (Waited(None if time is None else time.si),)
        case actions.ProveDead() as proof:
            if exit == "dead":
                return (ProvedDead(proof.circuit, proof.pairs, proof.limit),)
            return (FoundNotDead(proof.circuit),) if exit == "not_dead" else ()
        case actions.ProveSafe(circuit):
            return (ProvedSafe(circuit),) if exit == "within" else ()
        case actions.Measure() as measured if measured.test_voltage is not None:
            discharged = measured.discharged is not None and exit != "not_decided"
            return (TestVoltageApplied(measured.pairs, measured.test_voltage, discharged),)
        case actions.Discharge() as discharge:
            return (Discharged(discharge.circuit, discharge.pairs),) if exit == "within" else ()
        case actions.FitTemporary(name, _, joins):
            return (TemporaryFitted(name, joins),)
        case actions.RemoveTemporary(name):
            return (TemporaryRemoved(name),)
        case actions.Drain(circuit):
            return (Emptied(circuit),)
        case actions.Fill(circuit):
            return (Filled(circuit),)
        case actions.Turn(what, speed):
            return (Turned(what, speed),)
        case actions.Pause():
            return (Interrupted(),)
        case _:
            return ()
