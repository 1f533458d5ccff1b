"""A line does not fit the lines around it.

## Why it matters

Indents, colons, quotes and brackets tell what belongs to what. Where they contradict one another, the rest of
the file could mean anything, so nothing is guessed.

## Fails

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
     expect: The display is dark. # <- `expect` is indented deeper than the line above, which has its value already
```

```yaml fails procedure
symptoms: [The heater stays cold., The fan does not run. # <- the bracket `[` that opens here is not closed
```

## Passes

```yaml passes procedure
symptoms: [The heater stays cold., The fan does not run.]
steps:
  - do: Look at the vehicle.
    on: nothing
    expect: The display is dark.
```

## Source

YAML 1.2.2, 6.1 (indentation spaces), 7.3 and 7.4 (quotes, brackets).
"""

KIND = "form"
SEVERITY = "error"
