"""Lists and maps stand inside one another too deep.

## Why it matters

No file of a manual needs more than seven levels. Forty come from a bracket that was never closed, or from
lines that move further and further to the right.

## Fails

```yaml fails procedure
symptoms: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[x]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]] # <- lists and maps stand inside one another more than 40 deep here
```

## Passes

```yaml passes procedure
symptoms: [The heater stays cold., The fan does not run.]
```

## Source

A decision of this format.
"""

KIND = "form"
SEVERITY = "error"
