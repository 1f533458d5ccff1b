"""The index of the search, made from the data of the pages and cut into pieces.

Each piece is a script that hands its data to `bayleafSearch.take`: a script tag is the one way to read a
file that works from a folder as well as from a server. Three kinds, all sorted and cut into ranges, so that
a query finds by bisection in `search/index.js` which few pieces it needs:

`k<n>.js`  keys. Codes, names and numbers without the signs between, and titles, each with three lists of
           records, parted by `|`: the thing itself, a record that mentions it, a record with that title.
`w<n>.js`  words. Each with four lists of units, the weightiest first: in the title of the page, in the title
           of a record, in the text three times or more, in the text.
`d<n>.js`  the records themselves, to show them: by unit `[url, page title, [[anchor, title, kind, words, exact]]]`.

`index.js` also says what the filters need, so that they work before anything is read: `names` holds for each
filter the words that occur (the empty one first), `marks` the combinations of their numbers, `marked` the
combination of each unit, `starts` the number of its first record.

Every piece names the version of its index, so that a browser that kept half of an older one finds out.
A *unit* is those records of a page that are alike to all filters, at most 64. Lists hold the steps from one
number to the next.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from operator import sub
from typing import Any, NamedTuple

from ..pages.body import SearchRecord
from .facts import NO_FACTS, ManualFacts
from .search_text import counts, normal, squeezed

#: The folder of the pieces in the site.
FOLDER = "search"
#: A piece is closed once it holds so many characters: about one round trip on a workshop's radio link.
PIECE_SIZE = 24_000
#: A step title such as "Secure the service disconnect" stands in every procedure; so many are enough.
SAME_TITLE = 50
UNIT_SIZE = 64
_OFTEN = 3

_Lists = dict[str, list[int]]


class Mark(NamedTuple):
    """What the filters ask of a record; an empty text where it has none."""

    vehicle: str
    system: str
    kind: str
    voltage_class: str


class Unit(NamedTuple):
    """The records of one page that are alike to all filters, or a stretch of them."""

    url: str
    title: str
    mark: Mark
    records: list[SearchRecord]


def build(records: Iterable[SearchRecord], titles: Mapping[str, str], facts: ManualFacts = NO_FACTS) -> dict[str, str]:
    """The pieces, by their address. `titles` holds the title of every page, by its address."""
    units = _units(records, titles, facts)
    files: dict[str, str] = {}
    index: dict[str, Any] = {
        "k": _ranges("k", _keys(units), files),
        "w": _ranges("w", _words(units), files),
        **_data(units, files),
        **_filters(units),
    }
    files = {"index": _json(index), **files}
    version = hashlib.sha256("".join(files.values()).encode("utf-8")).hexdigest()[:12]
    return {
        f"{FOLDER}/{name}.js": f'bayleafSearch.take("{name}","{version}",{text});\n' for name, text in files.items()
    }


def _units(records: Iterable[SearchRecord], titles: Mapping[str, str], facts: ManualFacts) -> list[Unit]:
    """Records by page, pages of one folder side by side; a page without a record of its own gets one."""
    by_page: dict[str, list[SearchRecord]] = {url: [] for url in titles}
    for record in records:
        by_page.setdefault(record.url.partition("#")[0], []).append(record)
    units: list[Unit] = []
    for url in sorted(by_page, key=_folder):
        found = by_page[url]
        title = titles.get(url, "")
        if title and not any(record.url == url for record in found):
            found.insert(0, SearchRecord(url, title, "page"))
        alike: dict[Mark, list[SearchRecord]] = {}
        for record in found:
            alike.setdefault(_mark(record, url, facts), []).append(record)
        for mark, these in alike.items():
            units.extend(Unit(url, title, mark, these[at : at + UNIT_SIZE]) for at in range(0, len(these), UNIT_SIZE))
    return units


def _mark(record: SearchRecord, page: str, facts: ManualFacts) -> Mark:
    """What is known of the thing itself, else of the page that it stands on."""
    own, around = facts.of(record.url), facts.of(page)
    return Mark(
        facts.vehicle(page), own.system or around.system, record.kind, own.voltage_class or around.voltage_class
    )


def _filters(units: list[Unit]) -> dict[str, Any]:
    """What may be chosen, and which unit has what."""
    marks = sorted({unit.mark for unit in units})
    names = [["", *sorted(set(column) - {""})] for column in zip(*marks, strict=True)] or [[""]] * len(Mark._fields)
    starts, number = [], 0
    for unit in units:
        starts.append(number)
        number += len(unit.records)
    place = {mark: at for at, mark in enumerate(marks)}
    return {
        "names": names,
        "marks": [[names[at].index(word) for at, word in enumerate(mark)] for mark in marks],
        "marked": [place[unit.mark] for unit in units],
        "starts": starts,
    }


def _folder(url: str) -> str:
    return url.rpartition("/")[0].partition("/")[0]


def _keys(units: list[Unit]) -> dict[str, str]:
    """What means just one thing, and titles → the numbers of the records."""
    own: _Lists = {}
    mentions: _Lists = {}
    same: _Lists = {}
    number = 0
    for unit in units:
        for record in unit.records:
            title = normal(record.title)
            named = title.removeprefix(normal(record.kind) + " ")  # "Trouble code P0AA6" is the code itself
            for text in record.exact:
                plain = normal(text)
                (own if named.startswith(plain) else mentions).setdefault(squeezed(plain), []).append(number)
            titled = same.setdefault(squeezed(title), [])
            if len(titled) < SAME_TITLE:
                titled.append(number)
            number += 1
    return _joined((own, mentions, same))


def _words(units: list[Unit]) -> dict[str, str]:
    """Word → the numbers of the units, by weight."""
    levels: tuple[_Lists, _Lists, _Lists, _Lists] = ({}, {}, {}, {})
    for number, unit in enumerate(units):
        heads = counts(normal("\n".join(text for record in unit.records for text in (record.title, *record.exact))))
        in_title = counts(normal(unit.title))
        for word in in_title:
            levels[0].setdefault(word, []).append(number)
        for word in heads.keys() - in_title.keys():
            levels[1].setdefault(word, []).append(number)
        text = counts(normal("\n".join(record.words for record in unit.records)))
        for word in text.keys() - heads.keys() - in_title.keys():
            levels[2 if text[word] >= _OFTEN else 3].setdefault(word, []).append(number)
    return _joined(levels)


def _joined(lists: tuple[_Lists, ...]) -> dict[str, str]:
    """Key → all its lists in one text."""
    keys = set().union(*lists) - {""}
    return {key: "|".join([_steps(numbers[key]) if key in numbers else "" for numbers in lists]) for key in keys}


def _steps(numbers: list[int]) -> str:
    """Ascending numbers as the steps from one to the next; a number that stands twice is a step of 0."""
    if len(numbers) == 1:
        return str(numbers[0])
    return ",".join(map(str, map(sub, numbers, [0, *numbers])))


def _ranges(letter: str, entries: Mapping[str, str], files: dict[str, str]) -> list[str]:
    """Cut sorted entries into pieces; returns the first key of each."""
    firsts: list[str] = []
    piece: dict[str, str] = {}
    size = 0
    # JavaScript compares strings by their UTF-16 units, so the keys are sorted that way.
    for key in sorted(entries, key=lambda text: text.encode("utf-16-be")):
        if not piece:
            firsts.append(key)
        piece[key] = entries[key]
        size += len(key) + len(entries[key]) + 6
        if size >= PIECE_SIZE:
            _put(letter, len(firsts) - 1, piece, files)
            piece, size = {}, 0
    if piece:
        _put(letter, len(firsts) - 1, piece, files)
    return firsts


def _data(units: list[Unit], files: dict[str, str]) -> dict[str, Any]:
    """Write the records; returns where each piece, each unit and each folder begins."""
    piece: list[Any] = []
    size = number = pieces = 0
    units_at: list[int] = []
    records_at: list[int] = []
    folders: dict[str, list[int]] = {}
    for at, unit in enumerate(units):
        if not piece:
            units_at.append(at)
            records_at.append(number)
        rows = [_row(record) for record in unit.records]
        piece.append([unit.url, unit.title, rows])
        size += sum(len(row[1]) + len(row[3]) + 40 for row in rows)
        folder = _folder(unit.url)
        folders.setdefault(folder, [number, number])[1] = number + len(rows)
        number += len(rows)
        if size >= PIECE_SIZE:
            _put("d", pieces, piece, files)
            piece, size, pieces = [], 0, pieces + 1
    if piece:
        _put("d", pieces, piece, files)
    return {"units": units_at, "records": records_at, "folders": folders}


def _row(record: SearchRecord) -> list[Any]:
    row: list[Any] = [record.url.partition("#")[2], record.title, record.kind, " ".join(record.words.split())]
    if record.exact:
        row.append(list(record.exact))
    return row


def _put(letter: str, number: int, piece: Any, files: dict[str, str]) -> None:
    files[f"{letter}{number}"] = _json(piece)


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
