"""A text is cut off where a `#` stands in it.

## Why it matters

A `#` with a space before it begins a remark that reaches to the end of the line. `Fit padlock #3` becomes
"Fit padlock".

## Fails

In this step only "Fit padlock" would be read; the faults are shown file by file in the tests, for the remark
that marks a fault would itself be part of it.

```yaml
steps:
  - do: Fit padlock #3 to the flap.
```

## Passes

```yaml passes procedure
steps:
  - do: "Fit padlock #3 to the flap."   # a remark begins with a space behind its sign
    on: nothing
```

## Source

YAML 1.2.2, 6.6 (comments).
"""

KIND = "form"
SEVERITY = "error"
