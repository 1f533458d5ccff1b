"""Pins and circuits at the contacts that probes touch."""

from collections.abc import Iterable, Iterator

from .actions import Measure
from .contact import Contact, read_contact
from .vehicle import Pin, Vehicle


def contacts_of(measurement: Measure) -> Iterator[Contact]:
    """The contacts that the probes of a measurement touch."""
    for pair in measurement.pairs:
        yield from pair
    for text in measurement.where:
        contact = read_contact(text)
        if contact is not None:
            yield contact


def pins_at(contacts: Iterable[Contact], vehicle: Vehicle) -> Iterator[tuple[Contact, Pin]]:
    """The pins that contacts name, each with its contact."""
    for contact in contacts:
        connector = vehicle.connectors.get(contact.connector)
        for pin in connector.pins.values() if connector is not None else ():
            if contact.pin in (None, pin.number):
                yield contact, pin


def circuits_at(contacts: Iterable[Contact], vehicle: Vehicle) -> Iterator[str]:
    """The names of the circuits to which contacts belong, on their side or on both."""
    for contact, pin in pins_at(contacts, vehicle):
        for side, name in (("device", pin.device_circuit), ("cable", pin.cable_circuit)):
            if name is not None and contact.side in (None, side):
                yield name
