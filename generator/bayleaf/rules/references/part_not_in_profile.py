"""A file names a part that the vehicle profile does not have.

## Why it matters

Which circuits a part belongs to, what it exposes when it is off and under which number it is ordered
stand in the profile. A part that is not there has none of this.

## Fails

```yaml fails procedure
parts:
  - part: cabin-heeter  # <- the vehicle profile has no part or fastener `cabin-heeter`
```

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: X7  # <- `X7` is a connector, but a part is meant here
    size: M8 × 1.25
    torque: 20 N·m
```

## Passes

```yaml passes procedure
parts:
  - part: cabin-heater
  - part: heater-bracket
    count: 4
```

## Source

The format of the files, version 1. Screws and nuts to order are named by their fastener.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = check_vehicle = check_record = checks("part-not-in-profile")
