"""A text holds a colon that would begin another value.

## Why it matters

A colon with a space behind it divides a key from its value, and a line has room for one. In
`do: Note: read the label` nobody can tell which colon is which.

## Fails

```yaml fails procedure
steps:
  - do: Look at the display: it must be dark. # <- the text `Look at the display: it must be dark.` holds a colon that would begin another value
    on: nothing
```

## Passes

```yaml passes procedure
steps:
  - do: "Look at the display: it must be dark."
    on: nothing
```

## Source

YAML 1.2.2, 7.3.3 (plain style).
"""

KIND = "form"
SEVERITY = "error"
