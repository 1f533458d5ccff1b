"""The file is not saved as UTF-8.

## Why it matters

Signs such as Ω, µ, ° and ± are stored differently by different programs. Only UTF-8 is the same on every
computer; read as anything else, `5 mΩ` becomes another value or none.

## Fails

A file saved as Windows-1252 or as UTF-16 without a mark at its beginning; shown file by file in the tests.

## Passes

```yaml passes procedure
steps:
  - do: Look at the cable; it must be 50 mm² and warm at most to 60 °C.
    on: nothing
```

## Source

YAML 1.2.2, 5.2 (character encodings); RFC 3629 (UTF-8).
"""

KIND = "form"
SEVERITY = "error"
