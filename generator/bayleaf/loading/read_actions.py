"""The action of a step, from plain data to the model: one small function a key."""

from collections.abc import Callable
from typing import Any

from ..diagnostics.place import Path
from ..model import actions
from .reader import Reader
from .value_reader import Data

#: What a measured value may be given in.
MEASURED_IN: dict[str, str | tuple[str, ...]] = {
    "voltage": "voltage", "voltage drop": "voltage", "current": "current", "resistance": "resistance",
    "continuity": "resistance", "insulation resistance": "resistance", "bonding resistance": "resistance",
    "diode": "voltage", "capacitance": "capacitance", "frequency": "frequency", "duty cycle": "ratio",
    "temperature": "temperature", "pressure": "pressure", "level": ("ratio", "length", "volume"),
    "speed": "speed", "rotational speed": "rotational speed", "length": "length", "angle": "angle",
    "mass": "mass", "torque": "torque", "time": "time", "ratio": "ratio", "power": "power", "charge": "charge",
}  # fmt: skip

Make = Callable[[Data, Reader, Path], Any]


def _measured(data: Data) -> str | tuple[str, ...] | None:
    return MEASURED_IN.get(data.get("quantity") or "")


def _names(action: Callable[[tuple[str, ...]], Any], key: str) -> Make:
    return lambda data, reader, at: action(reader.words(data, key))


def _set(data: Data, reader: Reader, at: Path) -> actions.SetMode:
    return actions.SetMode((data.get("set") or {}).get("mode") or "")


def _refit(data: Data, reader: Reader, at: Path) -> actions.Refit:
    return actions.Refit(reader.words(data, "refit"), bool(reader.yes(data, "new")))


def _tighten(data: Data, reader: Reader, at: Path) -> actions.Tighten:
    return actions.Tighten(
        reader.words(data, "tighten"),
        reader.value(data, "torque", at, "torque"),
        reader.quantity(data, "then_turn", at, "angle"),
        reader.text(data, "size"),
        reader.text(data, "class"),
        bool(reader.yes(data, "new")),
        "torque" in data,
    )


def _drain(data: Data, reader: Reader, at: Path) -> actions.Drain:
    amount = reader.value(data, "amount", at, ("volume", "mass"))
    return actions.Drain(reader.text(data, "drain") or "", amount, reader.text(data, "into"))


def _fill(data: Data, reader: Reader, at: Path) -> actions.Fill:
    amount = reader.value(data, "amount", at, ("volume", "mass", "pressure"))
    return actions.Fill(reader.text(data, "fill") or "", amount, reader.text(data, "with"))


def _fit_temporary(data: Data, reader: Reader, at: Path) -> actions.FitTemporary:
    joins = reader.pair(data.get("joins"), (*at, "joins"))
    return actions.FitTemporary(reader.text(data, "fit_temporary") or "", reader.words(data, "at"), joins)


def _remove_temporary(data: Data, reader: Reader, at: Path) -> actions.RemoveTemporary:
    return actions.RemoveTemporary(reader.text(data, "remove_temporary") or "")


def _wait(data: Data, reader: Reader, at: Path) -> actions.Wait:
    return actions.Wait(reader.quantity(data, "wait", at, "time"), reader.words(data, "for"))


def _prove_dead(data: Data, reader: Reader, at: Path) -> actions.ProveDead:
    proved = data.get("tester_proved") or {}
    return actions.ProveDead(
        reader.text(data, "prove_dead") or "",
        reader.pairs(data, "between", at),
        reader.text(data, "using"),
        reader.text(proved, "before"),
        reader.text(proved, "after"),
        reader.limit(data, "limits", at, "voltage"),
        data.get("take"),
        data.get("current_kind"),
    )


def _prove_safe(data: Data, reader: Reader, at: Path) -> actions.ProveSafe:
    limit = reader.limit(data, "limits", at, ("pressure", "temperature", "voltage"))
    return actions.ProveSafe(reader.text(data, "prove_safe") or "", reader.text(data, "using"), limit)


def _measure(data: Data, reader: Reader, at: Path) -> actions.Measure:
    return actions.Measure(
        reader.text(data, "measure") or "",
        data.get("quantity") or "",
        data.get("current_kind"),
        reader.pairs(data, "between", at),
        reader.text(data, "around"),
        reader.words(data, "at"),
        reader.text(data, "using"),
        data.get("take"),
        reader.quantity(data, "read_after", at, "time"),
        reader.quantity(data, "test_voltage", at, "voltage"),
        reader.quantity(data, "test_current", at, "current"),
        reader.limit(data, "discharged", at, "voltage"),
        reader.limit(data, "limits", at, _measured(data)),
    )


def _read(data: Data, reader: Reader, at: Path) -> actions.Read:
    limit = reader.limit(data, "limits", at, _measured(data))
    return actions.Read(reader.text(data, "read") or "", data.get("quantity"), reader.text(data, "from"), limit)


def _command(data: Data, reader: Reader, at: Path) -> actions.Command:
    return actions.Command(reader.text(data, "command") or "", reader.text(data, "to"), reader.words(data, "energises"))


def _energise(data: Data, reader: Reader, at: Path) -> actions.Energise:
    return actions.Energise(reader.words(data, "energise"), reader.text(data, "with"))


def _discharge(data: Data, reader: Reader, at: Path) -> actions.Discharge:
    return actions.Discharge(
        reader.text(data, "discharge") or "",
        reader.pairs(data, "between", at),
        reader.text(data, "using"),
        reader.text(data, "with"),
        reader.limit(data, "limits", at, "voltage"),
    )


def _turn(data: Data, reader: Reader, at: Path) -> actions.Turn:
    return actions.Turn(reader.text(data, "turn") or "", reader.quantity(data, "speed", at, "rotational speed"))


def _compute(data: Data, reader: Reader, at: Path) -> actions.Compute:
    return actions.Compute(
        reader.text(data, "compute") or "",
        data.get("formula") or "",
        reader.words(data, "of"),
        data.get("quantity"),
        reader.limit(data, "limits", at, _measured(data)),
        reader.quantity(data, "resistor", at, "resistance"),
    )


def _ask(data: Data, reader: Reader, at: Path) -> actions.Ask:
    answers = tuple(
        actions.Answer((*at, "answers", index), reader.text(value, "answer") or "", reader.text(value, "then"))
        for index, value in enumerate(data.get("answers") or ()) if isinstance(value, dict)
    )  # fmt: skip
    return actions.Ask(reader.text(data, "ask") or "", answers)


def _perform(data: Data, reader: Reader, at: Path) -> actions.Perform:
    return actions.Perform(reader.text(data, "perform") or "")


def _pause(data: Data, reader: Reader, at: Path) -> actions.Pause:
    return actions.Pause(data.get("pause") or "")


#: By the key of the file. `do` is not among them: it is an action only where no other stands beside it.
ACTIONS: dict[str, Make] = {
    "set": _set,
    "disconnect": _names(actions.Disconnect, "disconnect"),
    "reconnect": _names(actions.Reconnect, "reconnect"),
    "secure": _names(actions.Secure, "secure"),
    "release": _names(actions.Release, "release"),
    "unplug": _names(actions.Unplug, "unplug"),
    "plug": _names(actions.Plug, "plug"),
    "remove": _names(actions.Remove, "remove"),
    "refit": _refit,
    "loosen": _names(actions.Loosen, "loosen"),
    "tighten": _tighten,
    "drain": _drain,
    "fill": _fill,
    "open": _names(actions.OpenValve, "open"),
    "close": _names(actions.CloseValve, "close"),
    "fit_temporary": _fit_temporary,
    "remove_temporary": _remove_temporary,
    "wait": _wait,
    "prove_dead": _prove_dead,
    "prove_safe": _prove_safe,
    "measure": _measure,
    "read": _read,
    "command": _command,
    "energise": _energise,
    "discharge": _discharge,
    "turn": _turn,
    "compute": _compute,
    "ask": _ask,
    "perform": _perform,
    "pause": _pause,
}
