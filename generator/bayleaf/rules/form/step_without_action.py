"""A step does not say what is done.

## Why it matters

A step with nothing but remarks cannot be done and cannot be ticked off. Mostly the action is misspelt.

## Fails

```yaml fails procedure
steps:
  - mesure: Supply of the heater # <- `mesure` is no action of a step
    quantity: voltage
    between: [X210/3, X210/1]
```

```yaml fails procedure
steps:
  - expect: The display is dark. # <- this step does not say what is done
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
  - do: Look at the display.
    on: nothing
    expect: The display is dark.
```

## Source

The actions of a step in `schema/procedure.schema.json`.
"""

KIND = "form"
SEVERITY = "error"
