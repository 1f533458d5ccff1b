"""A value is none of the words that may stand there.

## Why it matters

Where the checker acts on a word, such as a mode of the vehicle or the state of a circuit, the word comes from
a short list: two words for one thing would be taken for two things.

## Fails

```yaml fails procedure
steps:
  - set: {mode: on} # <- `on` is none of the words for `mode`
```

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: volts # <- `volts` is none of the words for `quantity`
    between: [X210/3, X210/1]
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
```

## Source

The lists of words in the schema of each kind of file, in the folder `schema`.
"""

KIND = "form"
SEVERITY = "error"
