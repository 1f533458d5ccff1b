"""A text begins with a sign that means something to the reader of the file.

## Why it matters

At the beginning of a value some signs have a meaning of their own: `*` stands for something written elsewhere,
`%` and `@` are kept for other uses. Inside a text, and in quotes, they are harmless.

## Fails

```yaml fails procedure
title: @ the bench # <- the text `@ the bench` begins with `@`
```

## Passes

```yaml passes procedure
title: "@ the bench"
about: 5 % is enough, or 3 * 2.
```

## Source

YAML 1.2.2, 5.3 (indicator characters).
"""

KIND = "form"
SEVERITY = "error"
