"""A key holds a list, a text or keys with values where another of these belongs.

## Why it matters

A list tells several things apart, keys with values tell what each thing is. Where the wrong one stands, the
file cannot be read as it was meant.

## Fails

```yaml fails procedure
steps:
  - ask: Is the seal of X7 dry and whole?
    answers: [yes, no] # <- answer 1 is the text `yes`, but takes keys with values
```

```yaml fails procedure
steps:
  - set: off # <- `set` holds the text `off`, but takes keys with values
```

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [[X210/3, X210/1, chassis]] # <- `between` holds 3 contacts, but takes two
```

## Passes

```yaml passes procedure
steps:
  - ask: Is the seal of X7 dry and whole?
    answers:
      - answer: yes
        then: next
      - answer: no
        then: stop
  - set: {mode: off}
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
```

## Source

The schema of each kind of file, in the folder `schema`.
"""

KIND = "form"
SEVERITY = "error"
