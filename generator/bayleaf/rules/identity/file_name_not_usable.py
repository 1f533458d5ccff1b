"""A file or folder has a name that no page can have.

## Why it matters

The address of a page and every reference to a procedure are made of the names of its folder and its file.
Capitals and spaces in them work on one computer and not on the next; `vehicle`, `energy` and `review` are
pages of the vehicle itself.

## Fails

Shown file by file in the tests: `procedures/test-van/Replace heater.yml`,
`procedures/test-van/energy.yml`.

## Passes

Shown file by file in the tests: `procedures/test-van/replace-heater.yml`.

## Source

The format of the files, version 1: small letters, digits and hyphens. Found while the files are looked
for.
"""

KIND = "form"
SEVERITY = "error"
