"""A list entry is read as more of the text above it.

## Why it matters

A line that is indented deeper than the text above goes on with that text, dash or no dash. A whole entry
disappears in the words of the one before.

## Fails

```yaml fails procedure
steps:
  - on: nothing
    do: Look at the seals of
      - the inverter # <- `- the inverter` would be read as more of the text above
```

## Passes

```yaml passes procedure
steps:
  - on: nothing
    do: Look at the seals of the inverter and of the heater.
symptoms:
  - The heater stays cold.
  - The fan does not run.
```

## Source

YAML 1.2.2, 7.3.3 (plain style over several lines).
"""

KIND = "form"
SEVERITY = "error"
