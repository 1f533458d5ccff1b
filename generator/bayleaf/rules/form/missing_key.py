"""Something that must be said is not said.

## Why it matters

A measurement without its quantity cannot be checked, a circuit without its sources cannot be isolated. Where
safety hangs on a fact, silence is not taken for "none": the profile says `none` where there is none.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater # <- `measure` needs `quantity` beside it
    between: [X210/3, X210/1]
```

```yaml fails vehicle
buses:
  body: # <- the data bus `body` has no `kind`
    name: Body CAN
    rate: 500 kbit/s
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
```

## Source

The schema of each kind of file, in the folder `schema`.
"""

KIND = "form"
SEVERITY = "error"
