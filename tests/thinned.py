"""What is tried of a long table: some of it in `make test`, all of it in `make campaign`."""

import os
from collections.abc import Sequence
from typing import TypeVar

One = TypeVar("One")

#: Set by `make campaign`.
IS_CAMPAIGN = bool(os.environ.get("BAYLEAF_CAMPAIGN"))


def some(cases: Sequence[One], every: int) -> list[One]:
    """Each n-th case from the first on; in a campaign each."""
    return list(cases if IS_CAMPAIGN else cases[::every])
