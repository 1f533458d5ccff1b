"""A unit measures something else than what is asked for.

## Why it matters

A torque in joules, a resistance in volts or a wait in metres is a slip, and no comparison with it means
anything. `5 m` for five minutes would be five metres.

## Fails

```yaml fails procedure
steps:
  - wait: 5 m # <- `5 m` is a length, but a time is expected
```

```yaml fails vehicle
fasteners:
  heater-bracket: {part: cabin-heater, torque: 20 J} # <- `20 J` is an energy, but a torque is expected
```

## Passes

```yaml passes procedure
steps:
  - wait: 5 min
```

```yaml passes vehicle
fasteners:
  heater-bracket: {part: cabin-heater, torque: 20 N·m}
```

## Source

SI Brochure, 9th edition, 2.3.4 (the newton metre of a torque is not called joule; clause from memory).
"""

KIND = "form"
SEVERITY = "error"
