"""A value stands for something written elsewhere.

## Why it matters

A manual is read on paper, and a step is looked up by itself. What `*limits` stands for would have to be looked
for elsewhere, and a change there would change steps that nobody thought of.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: &supply 11.5 V to 14.8 V
    source: workshop practice
  - measure: Supply of the fan
    quantity: voltage
    between: [X210/3, X210/1]
    limits: *supply # <- `*supply` stands for something written elsewhere
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: workshop practice
  - measure: Supply of the fan
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Source

YAML 1.2.2, 6.9.2 (node anchors), 7.1 (alias nodes).
"""

KIND = "form"
SEVERITY = "error"
