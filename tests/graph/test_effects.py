"""What leaving a step by an exit changes on the vehicle."""

from fractions import Fraction

import pytest
from bayleaf.graph import effects
from bayleaf.graph.build import build_graph
from bayleaf.graph.effects import effects_of
from bayleaf.loading.load import load
from bayleaf.model.contact import read_contact
from bayleaf.model.procedure import Step
from bayleaf.quantities.limit import parse_limit
from bayleaf.quantities.quantity import parse_quantity
from kit import PLACES, PROCEDURE, completed

PROVE = "prove_dead: traction\nusing: voltage-tester\nlimits: at most 5 V"
INSULATION = (
    "measure: Insulation\nquantity: insulation resistance\nbetween: [X7/1 device, chassis]\n"
    "test_voltage: 500 V\nlimits: at least 5 MΩ"
)
GAUGE = "prove_safe: heater\nusing: gauge\nlimits: at most 0.1 bar"
HOUSING = "measure: Rest\nquantity: voltage\nat: [heater, chassis]\nlimits: at most 5 V"
VOLTAGE = "measure: Rest\nquantity: voltage\nbetween: [X7/1 device, chassis]\nlimits: at most 5 V"
CURRENT = "measure: Current\nquantity: current\naround: orange-lead\nlimits: 0 A ± 1 A"
PAIR = ((read_contact("X7/1 device"), read_contact("chassis")),)
LIMIT = parse_limit("at most 5 V")
LIMIT_OF_GAUGE = parse_limit("at most 0.1 bar")
NO_CURRENT = parse_limit("0 A ± 1 A")


def step(text: str) -> Step:
    """The one step of a procedure that has this text."""
    lines = text.replace("\n", "\n    ")
    file = completed(f"steps:\n  - {lines}\n", PROCEDURE)
    return load(PLACES["procedure"], file.encode(), "procedure").model.steps[0]


@pytest.mark.parametrize(
    ("text", "exit", "expected"),
    [
        ("do: Look.", "next", ()),
        ("set: {mode: off}", "next", (effects.ModeSet("off"),)),
        ("disconnect: [a, b]", "next", (effects.Opened("a"), effects.Opened("b"))),
        ("reconnect: a", "next", (effects.Closed("a"),)),
        ("secure: a", "next", (effects.Secured("a"),)),
        ("release: a", "next", (effects.Released("a"),)),
        ("unplug: [X7, X8]", "next", (effects.Unplugged("X7"), effects.Unplugged("X8"))),
        ("plug: X7", "next", (effects.Plugged("X7"),)),
        ("remove: cover", "next", (effects.TakenOff("cover"),)),
        ("refit: cover\nnew: yes", "next", (effects.PutBack("cover"),)),
        ("loosen: screw", "next", (effects.Loosened("screw"),)),
        ("tighten: screw", "next", (effects.Tightened("screw"),)),
        ("drain: coolant", "next", (effects.Emptied("coolant"),)),
        ("fill: coolant", "next", (effects.Filled("coolant"),)),
        ("open: valve", "next", ()),
        ("close: valve", "next", ()),
        ("fit_temporary: cap", "next", (effects.TemporaryFitted("cap", None),)),
        ("remove_temporary: cap", "next", (effects.TemporaryRemoved("cap"),)),
        ("wait: 5 min", "next", (effects.Waited(Fraction(300)),)),
        ("wait: soon", "next", (effects.Waited(None),)),
        ("turn: driven wheels\nspeed: 60 rpm", "next", (effects.Turned("driven wheels", parse_quantity("60 rpm")),)),
        ("energise: [traction]", "next", (effects.Energised("traction", False),)),
        ("command: Close it\nenergises: traction", "next", (effects.Energised("traction", True),)),
        ("command: Read the codes", "next", ()),
        ("pause: break", "next", (effects.Interrupted(),)),
        ("perform: test-van/isolate", "end", (effects.Performed("test-van/isolate", None),)),
        ("perform: test-van/isolate", "failed", (effects.Performed("test-van/isolate", "failed"),)),
        ("read: Charge", "next", ()),
    ],
)
def test_effects_of_plain_actions(text: str, exit: str, expected: tuple[effects.Effect, ...]) -> None:
    """One effect for each thing that the step names."""
    assert expected == effects_of(step(text), exit)


@pytest.mark.parametrize(
    ("text", "exit", "expected"),
    [
        (PROVE, "dead", (effects.ProvedDead("traction", (), LIMIT),)),
        (PROVE, "not_dead", (effects.FoundNotDead("traction"),)),
        (PROVE, "not_decided", (effects.ProofLost("traction", None),)),
        ("prove_safe: heater\nusing: thermometer", "within", (effects.ProvedSafe("heater", None),)),
        (GAUGE, "within", (effects.ProvedSafe("heater", LIMIT_OF_GAUGE),)),
        ("prove_safe: heater\nusing: thermometer", "above", (effects.ProofLost("heater", None),)),
        (GAUGE, "above", (effects.ProofLost("heater", LIMIT_OF_GAUGE),)),
        (GAUGE, "not_decided", (effects.ProofLost("heater", LIMIT_OF_GAUGE),)),
        ("discharge: traction\nlimits: at most 5 V", "within", (effects.Discharged("traction", (), LIMIT),)),
        ("discharge: traction\nlimits: at most 5 V", "above", (effects.ProofLost("traction", None),)),
        ("discharge: traction\nlimits: at most 5 V", "not_decided", (effects.ProofLost("traction", None),)),
        ("discharge: traction", "next", ()),
        (VOLTAGE, "within", (effects.VoltageRead(PAIR, LIMIT),)),
        (VOLTAGE, "above", ()),
        (HOUSING, "within", (effects.HousingRead(("heater",), LIMIT),)),
        (HOUSING, "above", ()),
        (VOLTAGE, "not_decided", ()),
        (CURRENT, "within", (effects.CurrentRead("orange-lead", NO_CURRENT),)),
        (CURRENT, "above", ()),
        ("measure: Current\nquantity: current\nlimits: 0 A ± 1 A", "within", ()),
        ("measure: Supply\nquantity: voltage\nlimits: at least 11 V", "below", ()),
    ],
)
def test_effects_belong_to_exits(text: str, exit: str, expected: tuple[effects.Effect, ...]) -> None:
    """A proof that failed proves nothing, and one that was not decided does not either; a reading counts within."""
    assert expected == effects_of(step(text), exit)


@pytest.mark.parametrize(
    ("discharged", "exit", "expected"),
    [
        ("", "within", False),
        ("\ndischarged: at most 5 V", "within", True),
        ("\ndischarged: at most 5 V", "below", True),
        ("\ndischarged: at most 5 V", "not_decided", False),
    ],
)
def test_an_insulation_tester_leaves_its_voltage_behind(discharged: str, exit: str, expected: bool) -> None:
    """Only where the rest is read at the same pins, and that reading was taken, is it gone."""
    made = effects_of(step(INSULATION + discharged), exit)

    assert (effects.TestVoltageApplied(PAIR, parse_quantity("500 V"), expected),) == made


def test_used_up_repeats_change_nothing() -> None:
    """The step is not done once more: it is only come to."""
    file = completed("steps:\n  - id: a\n    unplug: X7\n    repeat: at most 2\n  - plug: X7\n    then: a\n", PROCEDURE)
    graph = build_graph(load(PLACES["procedure"], file.encode(), "procedure").model, {})

    assert {"next": (effects.Unplugged("X7"),), "exhausted": ()} == {
        edge.exit: edge.effects for edge in graph.leaving[0]
    }
