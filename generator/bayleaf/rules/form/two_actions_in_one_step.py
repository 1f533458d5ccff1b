"""One step does two things.

## Why it matters

A step is ticked off as a whole. With two actions in it, nobody knows whether the second one was done when the
work was broken off, and its effect on the vehicle is not clear either.

## Fails

```yaml fails procedure
steps:
  - disconnect: charge-lead
    secure: charge-lead # <- `secure` is a second action in this step, beside `disconnect`
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - secure: charge-lead
  - release: charge-lead
  - reconnect: charge-lead
```

## Source

IEC/IEEE 82079-1:2019 (one action in each step; from memory).
"""

KIND = "form"
SEVERITY = "error"
