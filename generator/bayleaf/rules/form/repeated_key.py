"""The same key is written twice for the same thing.

## Why it matters

Most programs keep the last of the two and say nothing. Which of two torques was meant, only the author knows.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    torque: 20 N·m
    torque: 25 N·m # <- `torque` is written twice for the same thing
```

```yaml fails procedure
steps:
  - do: Look at the display.
    on: nothing
    do: Look at the cover. # <- `do` is written twice for the same thing
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the display.
    on: nothing
  - do: Look at the cover.
    on: nothing
```

## Source

YAML 1.2.2, 3.2.1.1 (keys of a mapping are unique).
"""

KIND = "form"
SEVERITY = "error"
