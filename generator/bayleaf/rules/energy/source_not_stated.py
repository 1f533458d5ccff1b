"""A dangerous circuit does not say of every source whether it is there.

## Why it matters

A circuit is dead only when everything that can feed it is off. Whoever isolates it thinks of the battery first; the
charge lead, a converter that feeds backwards and a support unit at the jump posts are forgotten. So each of the four has
its line, and `none` is written where it is not there.

## Fails

```yaml fails vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources: # <- `heater-link` does not say whether `converter` and `external` feed it
      battery: {taken_off_by: [[service-plug]]}
      charging: none
    monitor: none
    stored: none
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

```yaml fails vehicle
circuits:
  squibs:
    name: Squibs of the airbags
    energy: pyrotechnic
    sources: {battery: none} # <- nothing is said to feed `squibs`, though something fires it
    stored: {stated_wait: 5 min}
  # and the others
```

## Passes

```yaml passes vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: none
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Source

NFPA 70E-2018, 120.5: the first step is to find all sources (as restated in the trade press). 29 CFR 1910.333(b)(2):
disconnected from all sources.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._circuits import dangerous, listed, squibs, stays_live, why_dangerous

KIND = "danger"
SEVERITY = "error"

SOURCES = ("battery", "charging", "converter", "external")


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """What is not said, and squibs of which it is said that nothing feeds them."""
    yield from _not_said(vehicle)
    for circuit in squibs(vehicle):
        if circuit.sources and all(source.kind == "none" for source in circuit.sources):
            yield Fault(
                (*circuit.at, "sources"),
                f"nothing is said to feed `{circuit.id}`, though something fires it",
                "it would count as safe by waiting alone",
                "name what feeds its control unit: `battery: {taken_off_by: [[…]]}`",
                key=True,
            )


def _not_said(vehicle: Vehicle) -> Iterator[Fault]:
    """Circuits that can be laid bare; one that stays live for ever is not touched anyhow."""
    for circuit in dangerous(vehicle):
        if circuit.sealed_in is not None or stays_live(circuit):
            continue
        stated = {source.at[-1] for source in circuit.sources}
        silent = [name for name in SOURCES if name not in stated]
        if silent:
            feeds = "feeds" if len(silent) == 1 else "feed"
            yield Fault(
                (*circuit.at, "sources"),
                f"`{circuit.id}` does not say whether {listed(f'`{name}`' for name in silent)} {feeds} it",
                f"{why_dangerous(circuit)}; a source that is forgotten keeps it live when it is thought dead",
                f"add {listed(f'`{name}: none`' for name in silent)}, or the isolation points that take it off: "
                f"`{silent[0]}: {{taken_off_by: [[…]]}}`",
                key=True,
            )
