"""A file is there and cannot be opened.

## Why it matters

A link to a file that is gone, or a file that another program holds, looks like a part of the manual and is none.

## Fails

Shown file by file in the tests: a link in `procedures/test-van/` that leads nowhere.

## Passes

Shown file by file in the tests: the same link with its file.

## Source

The system says why. Found while the files are read.
"""

KIND = "form"
SEVERITY = "error"
