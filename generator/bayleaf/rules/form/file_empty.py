"""The file holds nothing.

## Why it matters

An empty file has a place and a name, so other files can refer to it; but there is nothing to do in it.

## Fails

```yaml fails record whole
# to be written # <- the file holds nothing but empty lines and remarks
```

## Passes

```yaml passes record whole
format: 1
job: "2026-0001"
procedure: test-van/job
revision: 1
started: 2026-10-01 08:15
entries:
  - {step: 1, done: yes}
```

## Source

A decision of this format.
"""

KIND = "form"
SEVERITY = "error"
