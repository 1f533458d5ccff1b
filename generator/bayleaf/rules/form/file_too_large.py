"""The file is far larger than anything that belongs into a manual.

## Why it matters

A procedure has some thousand signs, a large vehicle profile a hundred thousand. A file of more than a million
is a copied log, a picture or a spread sheet under a wrong name, and reading it would keep everyone waiting.

## Fails

A file of more than 1 048 576 bytes; shown file by file in the tests.

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
```

## Source

A decision of this format.
"""

KIND = "form"
SEVERITY = "error"
