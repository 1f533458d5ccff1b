"""What a step is called on its page."""

import pytest
from bayleaf.model import actions
from bayleaf.model.procedure import Procedure, Step
from bayleaf.pages.actions import headline
from bayleaf.pages.naming import Naming
from bayleaf.pages.step_rows import action_rows
from demo_kit import demo

#: Procedure, what is filled in, the amount, and how the step is called.
FILLED = [
    ("thistledown-v4/refrigerant-line-seals", "dry nitrogen", "Fill with dry nitrogen, until the gauge stands at 0 bar: Refrigerant"),
    ("thistledown-v4/refrigerant-line-seals", "R-1234yf", "Fill in 560 g ± 15 g (19.23 oz to 20.28 oz): Refrigerant"),
    ("granbrook-t8/replace-left-air-spring", "dry air", "Fill with dry air of the workshop at 1.5 bar, through the"),
    ("granbrook-t8/fill-pack-coolant", "coolant for packs", "Fill in at most 4 L (at most 4.22 US qt): Coolant of the packs"),
    ("granbrook-t8/renew-plate-seals", "air", "Pump up to 0.4 bar (5.80 psi) with air from the hand pump: Coolant of the packs"),
]  # fmt: skip


def filling(procedure: Procedure, medium: str) -> Step:
    return next(
        step for step in procedure.steps
        if isinstance(step.action, actions.Fill) and (step.action.medium or "").startswith(medium)
    )  # fmt: skip


@pytest.mark.parametrize(("procedure", "medium", "said"), FILLED)
def test_what_is_filled_in_is_never_taken_for_what_the_circuit_is_called_by(
    procedure: str, medium: str, said: str
) -> None:
    """Nitrogen goes into the circuit of the refrigerant; it is not the refrigerant that is filled with it."""
    manual = demo()
    found = manual.procedures[procedure]
    naming = Naming(manual.vehicles[found.folder], manual.workshop)
    step = filling(found, medium)
    words = headline(step, naming, str).replace("\u00a0", " ")

    assert words.startswith(said)
    assert medium in words or str(dict(action_rows(step.action, naming))["With"]).startswith(medium)


@pytest.mark.parametrize(
    ("vehicle", "point", "row"),
    [
        ("granbrook-t8", "inlet-pinch", "Stays under pressure"),
        ("granbrook-t8", "right-plate-inlet", "Stays under pressure"),
        ("granbrook-t8", "aux-switch", "Stays live"),
    ],
)
def test_only_what_has_a_voltage_stays_live(vehicle: str, point: str, row: str) -> None:
    """At a valve or a clamp coolant stays under pressure."""
    manual = demo()
    naming = Naming(manual.vehicles[vehicle], manual.workshop)

    labels = [label for label, _ in action_rows(actions.Disconnect((point,)), naming)]

    assert ["Where", row] == labels


def test_an_adapter_is_fitted_at_a_half_of_a_plug_and_its_pins_are_not_counted() -> None:
    """Where every pin is meant, a title names the half alone."""
    manual = demo()
    naming = Naming(manual.vehicles["granbrook-t8"], manual.workshop)
    step = next(one for one in manual.procedures["granbrook-t8/renew-plate-seals"].steps if one.id == "box-on")

    assert "Fit for the time being: sensor box at X50, pins of the sensor" == headline(step, naming, str)


def test_a_sensor_that_tells_of_a_pressure_is_read_as_direct_voltage() -> None:
    """The knob of the multimeter is set by the page, also where nothing electrical is proved."""
    manual = demo()
    naming = Naming(manual.vehicles["granbrook-t8"], manual.workshop)
    proofs = [
        step.action for step in manual.procedures["granbrook-t8/renew-plate-seals"].steps
        if isinstance(step.action, actions.ProveSafe)
    ]  # fmt: skip

    shown = {(proof.using, dict(action_rows(proof, naming)).get("Kind")) for proof in proofs}

    assert {("contact-thermometer", None), ("coolant-gauge", None), ("multimeter", "voltage (DC)")} == shown
