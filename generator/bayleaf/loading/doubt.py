"""Where a file can be read, but perhaps not as it was meant: what stands there is not judged a second time."""

from collections.abc import Iterator

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from ..diagnostics.place import Path
from .slips.dashes import PartedEntry
from .slips.draft import Draft

#: The slips after which something may be missing in what was read, or too much in it.
LEAVE_DOUBT = frozenset({"repeated-key", "two-actions-in-one-step", "list-entry-read-as-text"})


def doubtful(node: Node | None, draft: Draft, path: Path = ()) -> Iterator[Path]:
    """The paths below which what is read may not be what was meant.

    Of a key that stands twice it is the map. Where several do, a name is missing above the second of them, so it
    is the map around that. Of entries that were parted it is their list, too.
    """
    if isinstance(node, SequenceNode):
        parted = [index for index, child in enumerate(node.value) if isinstance(child, PartedEntry)]
        if parted:
            yield path
            yield from ((*path, index) for index in parted)
        for index, child in enumerate(node.value):
            yield from doubtful(child, draft, (*path, index))
    elif isinstance(node, MappingNode):
        keys = [draft.restored(key.value) for key, _ in node.value if isinstance(key, ScalarNode)]
        twice = len(keys) - len(set(keys))
        if twice:
            yield path if twice == 1 else path[:-1]
        for key, child in node.value:
            if isinstance(key, ScalarNode):
                yield from doubtful(child, draft, (*path, draft.restored(key.value)))
    elif isinstance(node, ScalarNode) and not node.style and " - " in node.value and "\n" in _lines(node, draft):
        yield path


def _lines(node: ScalarNode, draft: Draft) -> str:
    return draft.text[node.start_mark.index : node.end_mark.index].rstrip()
