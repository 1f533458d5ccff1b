"""A line is indented with a space that does not indent.

## Why it matters

Text copied from a web page or a chat often holds no-break spaces. They look like spaces, but do not count as
an indent, so the line would belong to something else.

## Fails

```yaml fails procedure
steps:
  - do: Look at the display.
\u00a0\u00a0\u00a0\u00a0on: nothing # <- this line is indented with a no-break space (U+00A0) instead of an ordinary space
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the display.
    on: nothing
```

## Source

YAML 1.2.2, 6.1 (indentation spaces); Unicode Standard, 6.2 (space characters; from memory).
"""

KIND = "form"
SEVERITY = "error"
