"""A photo is a file of a kind that cannot be shown.

## Why it matters

The ending of a name does not make a picture. Many phones write HEIC, which most browsers do not show, and a program for
mail or chat may have given it the ending `.jpg`. Such a file opens on the phone that took it, and is an empty frame in the
bay. JPEG, PNG and WebP are shown, whatever their names end in.

## Fails

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/from-a-phone.jpg  # <- the photo `photos/from-a-phone.jpg` is a HEIC picture, though its name ends in .jpg
```

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/note.jpg  # <- the photo `photos/note.jpg` is text, though its name ends in .jpg
```

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/drawing.pdf  # <- the photo `photos/drawing.pdf` is a PDF
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/plug.jpg
```

## Source

The format of the files, version 1: a photo is a JPEG, PNG or WebP picture.
"""

import posixpath
from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._photos import photos

KIND = "form"
SEVERITY = "error"

_CONVERT = "open it in a program for pictures and save it as JPEG"
_WORDS = {
    "HEIC": "a HEIC picture", "AVIF": "an AVIF picture", "GIF": "a GIF picture", "BMP": "a BMP picture",
    "TIFF or raw": "a TIFF picture or the raw file of a camera", "SVG": "an SVG drawing", "PDF": "a PDF", "film": "a film",
    "ZIP": "a ZIP or office file", "web page": "a web page", "Git LFS": "only a pointer of Git LFS, not the picture",
    "text": "text", "empty": "an empty file", "unknown": "no picture that can be read",
}  # fmt: skip
_HELP = {
    "HEIC": f"set the phone to take JPEG (often called “most compatible”) and take it again, or {_CONVERT}; "
    "a new ending alone changes nothing",
    "AVIF": _CONVERT,
    "GIF": _CONVERT,
    "BMP": _CONVERT,
    "TIFF or raw": _CONVERT,
    "SVG": f"{_CONVERT}, or PNG",
    "PDF": "save the page as PNG, or take a picture of the screen, and name that",
    "film": "take a photo instead; films are not shown",
    "web page": "what was saved is the page around the picture: save the picture itself, or ask for it again",
    "Git LFS": "fetch the picture with `git lfs pull`",
    "empty": "copy the picture again: nothing of it arrived",
}
_BECAUSE = "JPEG, PNG and WebP are the pictures that every browser shows"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The photos of the steps."""
    yield from _check(procedure, case)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The photos of the profile."""
    yield from _check(vehicle, case)


def _check(model: Procedure | Vehicle, case: Case) -> Iterator[Fault]:
    for photo, seen in photos(model, case):
        if seen.trouble == "kind":
            ending = posixpath.splitext(photo.file)[1]
            is_disguised = ending.lower() in (".jpg", ".jpeg", ".png", ".webp") and seen.kind != "empty"
            though = f", though its name ends in {ending}" if is_disguised else ""
            help_ = _HELP.get(seen.kind, "put a JPEG, PNG or WebP picture there")
            yield Fault(photo.file_at, f"the photo `{photo.file}` is {_WORDS[seen.kind]}{though}", _BECAUSE, help_)
