"""A key stands in a step whose action has no use for it.

## Why it matters

Limits in a step that measures nothing are never compared with anything. Mostly the key slipped in from the
step above or below, or the action was said in words only and is now missing.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
    torque: 8 N·m # <- `torque` does not go with `set`
```

```yaml fails procedure
steps:
  - do: Measure the supply of the heater.
    on: X210/3
    limits: 11.5 V to 14.8 V # <- `limits` does not go with `do`
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Source

`dependentSchemas` of the step in `schema/procedure.schema.json`.
"""

KIND = "form"
SEVERITY = "error"
