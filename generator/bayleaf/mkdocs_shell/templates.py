"""The templates of the shell: found without looking through the theme's icons, compiled once in a process."""

import os
from types import CodeType

from jinja2 import BytecodeCache, FileSystemLoader
from jinja2.bccache import Bucket


class Loader(FileSystemLoader):
    """Lists files as Jinja does, without folders of a dot: of these MkDocs publishes nothing.

    The theme keeps more than ten thousand icons in one, and each would be looked at.
    """

    def list_templates(self) -> list[str]:
        """Paths below the folders, with slashes, in order."""
        found: set[str] = set()
        for top in self.searchpath:
            for folder, folders, names in os.walk(top, followlinks=self.followlinks):
                folders[:] = [name for name in folders if not name.startswith(".")]
                found.update(os.path.relpath(os.path.join(folder, name), top).replace(os.sep, "/") for name in names)
        return sorted(found)


class Compiled(BytecodeCache):
    """Keeps the code of templates for the next build or shell of this process, such as that after a save."""

    def __init__(self) -> None:
        self._kept: dict[tuple[object, ...], tuple[str, CodeType]] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Takes the code of the same text."""
        checksum, code = self._kept.get(_key(bucket), ("", None))
        bucket.code = code if checksum == bucket.checksum else None

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keeps what was compiled."""
        if bucket.code is not None:
            self._kept[_key(bucket)] = bucket.checksum, bucket.code


def _key(bucket: Bucket) -> tuple[object, ...]:
    """With filters and extensions, which stand in the code: what is constant is worked out while it is compiled."""
    env = bucket.environment
    return bucket.key, frozenset(env.filters.items()), frozenset(env.extensions)


COMPILED = Compiled()
