"""A pin belongs to a data bus that the vehicle profile does not have.

## Why it matters

Levels and termination are judged by the kind and the rate of the bus. A bus that is not there has
neither.

## Fails

```yaml fails vehicle
connectors:
  X1: {name: Inverter, pins: {1: {signal: HV+, circuit: traction}, 2: {signal: HV−, circuit: traction}}}
  X7: {name: Heater, pins: {1: {signal: HV+, circuit: traction}}}
  X210:
    name: Heater control plug
    pins:
      5: {signal: CAN high, circuit: none, bus: bdy}  # <- the vehicle profile has no bus `bdy`
```

## Passes

```yaml passes vehicle
connectors:
  X1: {name: Inverter, pins: {1: {signal: HV+, circuit: traction}, 2: {signal: HV−, circuit: traction}}}
  X7: {name: Heater, pins: {1: {signal: HV+, circuit: traction}}}
  X210:
    name: Heater control plug
    pins:
      5: {signal: CAN high, circuit: none, bus: body}
```

## Source

The format of the files, version 1: every name is looked up, written just so, in the vehicle profile.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_vehicle = checks("bus-not-in-profile")
