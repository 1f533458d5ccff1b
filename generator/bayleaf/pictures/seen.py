"""What is known of a picture file."""

import hashlib
from dataclasses import dataclass
from typing import Literal

#: A phone of 50 megapixels passes. More shows nothing more on a tablet, and takes gigabytes to open.
MOST_PIXELS = 64_000_000
LONGEST_SIDE = 20_000
MOST_BYTES = 60_000_000

Trouble = Literal["kind", "large", "broken"]


@dataclass(frozen=True, slots=True)
class Seen:
    """What is known of a picture file.

    `digest` stands for its bytes. `width` and `height` are pixels as it is seen, turned upright; 0 where not known.
    `trouble` says why it cannot be shown: of a kind that is not shown, too large, or damaged.
    """

    digest: str
    kind: str
    size: int
    width: int = 0
    height: int = 0
    trouble: Trouble | None = None


def digest_of(data: bytes) -> str:
    """What stands for the bytes of a file: so many hex digits of SHA-256 that no two photos of a manual share them."""
    return hashlib.sha256(data).hexdigest()[:16]
