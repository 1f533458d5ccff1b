"""A number has no unit.

## Why it matters

`5` can be five volts or five millivolts, five seconds or five minutes. Whoever reads it in the bay has to
guess, and guesses by habit.

## Fails

```yaml fails procedure
steps:
  - wait: 5 # <- `5` has no unit
```

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11.5 # <- `11.5` has no unit
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - wait: 5 min
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11.5 V
    source: workshop practice
```

## Source

SI Brochure, 9th edition, 5.4.1 (the value of a quantity is a number and a unit; clause from memory).
"""

KIND = "form"
SEVERITY = "error"
