"""A line is indented with a tab.

## Why it matters

A tab is as wide as an editor shows it, so how deep the line stands cannot be told; what it belongs to cannot
either.

## Fails

```yaml fails procedure
steps:
  - do: Look at the display.
\ton: nothing # <- this line is indented with a tab
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the display.
    on: nothing
```

## Source

YAML 1.2.2, 6.1 (indentation spaces: tabs are not allowed in an indent).
"""

KIND = "form"
SEVERITY = "error"
