"""A range of years ends before it begins.

## Why it matters

Nothing was built in such a range, so whatever applies to it applies to no vehicle.

## Fails

```yaml fails procedure
applies:
  built: 2025 to 2021  # <- `2025 to 2021` ends before it begins
```

## Passes

```yaml passes procedure
applies:
  built: 2021 to today
```

## Source

The format of the files, version 1. Found while the file is read.
"""

KIND = "form"
SEVERITY = "error"
