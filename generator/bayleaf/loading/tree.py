"""A YAML file as technicians write it: its values as text, lists and maps, its slips as findings.

`read_source` never raises, whatever the bytes. The tree of nodes is kept, so a place costs nothing
until a finding asks for it.
"""

from bisect import bisect_right
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from ..diagnostics.finding import Finding, in_order
from ..diagnostics.mend import Mend
from ..diagnostics.place import Path, Place
from .doubt import LEAVE_DOUBT, doubtful
from .plain_data import Plain, plain
from .slips.dashes import may_lack_dashes, part_entries
from .slips.draft import Draft
from .slips.marks import marked
from .slips.misread import misread
from .slips.slip import Slip, finding_of, place_of
from .slips.undecided import undecided
from .slips.unreadable import explain
from .slips.unseen import unseen
from .spans import slice_of
from .text import Fault, Lines, decode
from .yaml_reader import TOO_DEEP, TooDeep, Unread, compose

#: How many slips that stop the reader are mended, one after the other, before a file is given up;
#: fewer in a long file, so that no more than so many characters are read in all.
MAX_MENDS, FEWEST_MENDS, MAX_READ = 25, 3, 500_000
#: Of one rule this many findings a file are kept: the twenty-first no-break space tells nothing new.
MAX_OF_ONE_RULE = 20


class Source:
    """One file: its text, its values as plain data, and the places behind them."""

    __slots__ = ("_draft", "_lines", "_root", "data", "file", "findings", "renamed", "text")

    def __init__(
        self,
        file: str,
        lines: Lines,
        draft: Draft,
        root: Node | None,
        data: Any,
        findings: tuple[Finding, ...],
    ) -> None:
        """Made by `read_source`."""
        self.file = file
        self.text = lines.text
        self.data = data
        self.findings = findings
        #: Paths under which something is read that stands in the file under another one: a misspelt key.
        self.renamed: dict[Path, Path] = {}
        self._lines = lines
        self._draft = draft
        self._root = root

    def doubtful(self) -> tuple[Path, ...]:
        """The paths below which what is read may not be what was meant."""
        if any(finding.rule in LEAVE_DOUBT for finding in self.findings):
            return tuple(doubtful(self._root, self._draft))
        return ()

    def place(self, path: Path, start: int | None = None, end: int | None = None, key: bool = False) -> Place:
        """The place of the value at `path`, or with `key` of the key that it stands under.

        `start` and `end` narrow it to a part of the text, as in `value[start:end]`. Of a path that does
        not exist it is the place of the nearest value above, its key where it has one. A list or map
        over several lines is marked on its first line; the whole file is line 1, column 1.
        """
        node, key_node, found = self._find(self._written(path) if self.renamed else path)
        if not found and key_node is not None or key and key_node is not None:
            node = key_node
        if found and not key and isinstance(node, SequenceNode) and len(node.value) == 1:
            node, key_node = node.value[0], None  # a list of one text is often written for the text alone
        if node is None or node is self._root and not isinstance(node, ScalarNode):
            return Place(self.file, 1, 1, 1, 1)
        if isinstance(node, ScalarNode):
            narrowed = None
            if found and (start is not None or end is not None):
                narrowed = slice_of(self._draft, node, start, end)
            span = narrowed or self._span(node, key_node)
        else:
            span = node.start_mark.index, self._end_of_first_line(node)
        return place_of(self.file, self._draft, self._lines, *span)

    def _written(self, path: Path) -> Path:
        """The path as it is in the file."""
        for length in range(len(path), 0, -1):
            written = self.renamed.get(path[:length])
            if written is not None:
                return (*self._written(written[:-1]), written[-1], *path[length:])
        return path

    def _find(self, path: Path) -> tuple[Node | None, Node | None, bool]:
        """The node at a path, the node of its key, and whether the whole path was there."""
        node, key_node = self._root, None
        for step in path:
            if isinstance(node, MappingNode):
                pair = next((pair for pair in node.value if self._is_key(pair[0], step)), None)
                if pair is None:
                    return node, key_node, False
                key_node, node = pair
            elif isinstance(node, SequenceNode) and isinstance(step, int) and 0 <= step < len(node.value):
                node, key_node = node.value[step], None
            else:
                return node, key_node, False
        return node, key_node, True

    def _is_key(self, node: Node, step: str | int) -> bool:
        return isinstance(node, ScalarNode) and self._draft.restored(node.value) == step

    def _span(self, node: ScalarNode, key_node: Node | None) -> tuple[int, int]:
        """A text; of an empty value its key, or the dash of its list item."""
        start, end = node.start_mark.index, node.end_mark.index
        if start < end:
            return start, end
        if key_node is not None:
            return key_node.start_mark.index, key_node.end_mark.index
        dash = self._draft.text.rfind("-", 0, start)
        return (dash, dash + 1) if dash >= 0 else (start, end)

    def _end_of_first_line(self, node: Any) -> int:
        """Where the last value ends that begins on the node's first line; comments stay unmarked."""
        _, line_end = self._draft.line(node.start_mark.index)
        if isinstance(node, ScalarNode) or node.flow_style:
            return min(node.end_mark.index, line_end)
        end = node.start_mark.index + 1
        pairs = node.value if isinstance(node, MappingNode) else [(child,) for child in node.value]
        for children in pairs:
            for child in children:
                if child.start_mark.index > line_end:
                    return end
                end = max(end, self._end_of_first_line(child))
        return end


def read_source(file: str, data: bytes, loader: type | None = None) -> Source:
    """Read one file. `file` is its path relative to the manual; `loader` is chosen by tests only."""
    text = decode(data)
    if isinstance(text, Fault):
        return _unread(file, text)
    return _Reading(file, Lines(text), loader).source()


def _unread(file: str, fault: Fault) -> Source:
    place = Place(file, fault.line, fault.column, fault.line, fault.column + 1)
    mend = Mend(encoding=fault.encoding) if fault.encoding else None
    finding = Finding(fault.rule, place, fault.message, fault.because, fault.help, mend=mend)
    return Source(file, Lines(""), Draft(""), None, None, (finding,))


class _Reading:
    """One file on its way from text to tree: read, mend what can be mended, read again."""

    def __init__(self, file: str, lines: Lines, loader: type | None) -> None:
        self.file, self.lines, self.loader = file, lines, loader
        self.findings: list[Finding] = []
        self.told: set[tuple[str, int]] = set()
        self.count: dict[str, int] = {}

    def source(self) -> Source:
        """The result of reading."""
        draft, node, tree = self._read()
        for slip in tree.slips:
            self._tell(slip, draft)
        if node is None and not self.findings:
            self._tell(_EMPTY, draft)
        findings = in_order(self.findings)
        return Source(self.file, self.lines, draft, node, tree.data, findings)

    def _read(self) -> tuple[Draft, Node | None, Plain]:
        """Each turn either mends at least one sign of the draft or is the last."""
        author = Draft(self.lines.text)
        slips, draft = unseen(author)
        two_versions, draft = undecided(draft)
        for slip in (*slips, *two_versions):
            self._tell(slip, author)
        best: tuple[Draft, Node | None, Plain] = (draft, None, Plain(None))
        turns = max(FEWEST_MENDS, min(MAX_MENDS, MAX_READ // (len(draft.text) + 1)))
        for _ in range(turns):
            node = compose(draft.text, self.loader)
            knots = [] if isinstance(node, Unread) else marked(draft, self.loader)
            if knots:
                draft = self._mended(draft, knots)
                continue
            tree = node if isinstance(node, Unread) else _plain(node, draft)
            if isinstance(tree, Unread):
                if best[1] is not None:  # mending went wrong: the reading before it stands
                    break
                slip = explain(draft, tree, self.loader)
                if not self._told_on_line(slip, draft):
                    self._tell(slip, draft)
                mended = slip.mend(draft) if slip.mend else None
                if mended is None or mended.text == draft.text:
                    break
                draft = mended
                continue
            best = (draft, None if isinstance(node, Unread) else node, tree)
            slips = misread(draft, tree, self.loader)
            mended = self._mended(draft, slips)
            if mended.text == draft.text:
                break
            draft = mended
        return best

    def _mended(self, draft: Draft, slips: list[Slip]) -> Draft:
        """Tell the slips, and mend the draft from the last to the first, so that offsets hold."""
        for slip in slips:
            self._tell(slip, draft)
        for slip in sorted(slips, key=lambda slip: slip.start, reverse=True):
            if slip.mend:
                draft = slip.mend(draft) or draft
        return draft

    def _tell(self, slip: Slip, draft: Draft) -> None:
        mark = (slip.rule, draft.original(slip.start))
        count = self.count.get(slip.rule, 0)
        if mark in self.told or count >= MAX_OF_ONE_RULE:
            return
        self.told.add(mark)
        self.count[slip.rule] = count + 1
        self.findings.append(finding_of(slip, self.file, draft, self.lines))

    def _told_on_line(self, slip: Slip, draft: Draft) -> bool:
        """Whether the line of a slip has a finding already: one mistake gives one error."""
        starts = self.lines.starts
        line = bisect_right(starts, draft.original(slip.start))
        return any(finding.place.line == line for finding in self.findings)


def _plain(node: Node | None, draft: Draft) -> Plain | Unread:
    try:
        tree = plain(node, draft)
        if any(slip.rule == "repeated-key" for slip in tree.slips) or may_lack_dashes(draft.text):
            parted = part_entries(node, draft)
            if parted:
                tree = plain(node, draft)
                tree.slips += parted
        return tree
    except TooDeep as deep:
        return Unread(TOO_DEEP, deep.at)


_EMPTY = Slip(
    "file-empty",
    0,
    0,
    "the file holds nothing but empty lines and remarks",
    "every file of a manual begins with its `format`",
    "write it, beginning with `format: 1`, or delete it",
)
