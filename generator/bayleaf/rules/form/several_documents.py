"""One file holds several documents.

## Why it matters

A line of three dashes begins another document. The kind and the name of a file say what is in it; a second
document has neither, and everything in it would be passed over.

## Fails

```yaml fails record whole
format: 1
job: "2026-0001"
procedure: test-van/job
revision: 1
started: 2026-10-01 08:15
entries:
  - {step: 1, done: yes}
--- # <- a second document begins here
job: "2026-0002"
```

## Passes

```yaml passes record whole
---
format: 1
job: "2026-0001"
procedure: test-van/job
revision: 1
started: 2026-10-01 08:15
entries:
  - {step: 1, done: yes}
```

## Source

YAML 1.2.2, 9.2 (streams).
"""

KIND = "form"
SEVERITY = "error"
