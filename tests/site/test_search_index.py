"""The index of the search: what is in its pieces, and that a query needs few of them."""

import json

import pytest
from bayleaf.pages.body import SearchRecord
from bayleaf.site import free_text, search_index
from bayleaf.site.facts import ManualFacts, PageFacts

RECORDS = [
    SearchRecord("codes.html#P0AA6", "P0AA6 · Insulation fault", "trouble code", ("P0AA6",), "isolation lost"),
    SearchRecord("m12/a.html", "Find the fault", "procedure", ("m12/a", "P0AA6"), "fault, fault and fault"),
    SearchRecord("m12/a.html#step-1", "Open the interlock", "step", (), "tighten to 45 N·m"),
]
TITLES = {"codes.html": "Trouble codes", "m12/a.html": "Find the fault", "empty.html": "Empty page"}


def _read(files: dict[str, str], letter: str) -> dict:
    """All entries of one kind of piece."""
    read: dict = {}
    for name, text in files.items():
        if name.startswith(f"search/{letter}") and name != "search/index.js":
            arguments = json.loads("[" + text.removeprefix("bayleafSearch.take(").removesuffix(");\n") + "]")
            assert f"search/{arguments[0]}.js" == name
            read[arguments[0]] = arguments[2]
    return read


def test_a_key_leads_to_the_thing_itself_before_those_that_mention_it():
    """The thing is what has the key at the beginning of its title."""
    files = search_index.build(RECORDS, TITLES)
    keys = _read(files, "k")["k0"]

    # Records by number: 0 the page of codes, 1 the code, 2 the empty page, 3 the procedure, 4 its step.
    assert keys["p0aa6"] == "1|3|"
    assert keys["findthefault"] == "||3"
    assert keys["emptypage"] == "||2"


def test_a_title_may_begin_with_what_kind_of_thing_it_is():
    """A record with the title "Trouble code P0AA6" is the code itself, also where a procedure before it names it too."""
    records = [
        SearchRecord("a/fault.html", "Find the fault", "procedure", ("P0AA6",)),
        SearchRecord("codes.html#P0AA6", "Trouble code P0AA6", "trouble code", ("P0AA6",)),
    ]
    keys = _read(search_index.build(records, {}), "k")["k0"]

    assert keys["p0aa6"] == "0|1|"


def test_a_word_weighs_by_where_it_stands():
    """Title of the page, title of a record, text three times and more, text."""
    words = _read(search_index.build(RECORDS, TITLES), "w")["w0"]

    # Units by number: 0 the page of codes, 1 the code, 2 the empty page, 3 the procedure, 4 its step.
    assert words["fault"] == "3,1|1||"
    assert words["interlock"] == "|4||"
    assert words["nm"] == "|||4"
    assert words["tighten"] == "|||4"


def test_words_that_stand_often_weigh_more():
    """Three times is often."""
    records = [SearchRecord("a.html", "A", "page", (), "pump pump pump lamp")]
    words = _read(search_index.build(records, {"a.html": "A"}), "w")["w0"]

    assert words["pump"] == "||0|"
    assert words["lamp"] == "|||0"


def test_the_same_records_give_the_same_bytes():
    """And any change gives another version, which every piece names."""
    files = search_index.build(RECORDS, TITLES)
    changed = search_index.build(RECORDS, {**TITLES, "empty.html": "Other"})
    version = files["search/index.js"].split('"')[3]

    assert files == search_index.build(RECORDS, TITLES)
    assert all(f'"{version}"' in text for text in files.values())
    assert version != changed["search/index.js"].split('"')[3]


def test_a_large_index_is_cut_into_small_pieces():
    """No piece is much larger than one round trip, and the first keys are in order."""
    records = [
        SearchRecord(f"v/{n // 40}.html#s{n}", f"Step {n} of {n % 7}", "step", (f"X{n}/1",), f"word{n} torque")
        for n in range(8000)
    ]
    files = search_index.build(records, {f"v/{n}.html": f"Procedure {n}" for n in range(200)})
    index = (
        _read({"search/index.js": files["search/index.js"]}, "x")
        or json.loads("[" + files["search/index.js"].removeprefix("bayleafSearch.take(").removesuffix(");\n") + "]")[2]
    )

    assert sorted(index["k"]) == index["k"]
    assert len(index["k"]) == sum(name.startswith("search/k") for name in files)
    assert index["units"][0] == 0 and sorted(index["records"]) == index["records"]
    assert max(map(len, files.values())) < 2 * search_index.PIECE_SIZE


def test_the_filters_know_every_unit_before_a_piece_is_read():
    """Alike records of a page stand together; of a thing what is known of it counts before what is known of its page."""
    procedure = PageFacts("Traction system", "Class B, high voltage", "m12/a", "1")
    facts = ManualFacts(
        {"m12/a.html": procedure, "m12/a.html#step-1": PageFacts(voltage_class="12 V and 24 V")}, {"m12": "Larkway M12"}
    )
    files = search_index.build(RECORDS, TITLES, facts)
    index = json.loads("[" + files["search/index.js"].removeprefix("bayleafSearch.take(").removesuffix(");\n") + "]")[2]

    def words(mark):
        return [index["names"][at][number] for at, number in enumerate(mark)]

    assert [words(index["marks"][number]) for number in index["marked"]] == [
        ["", "", "page", ""],
        ["", "", "trouble code", ""],
        ["", "", "page", ""],
        ["Larkway M12", "Traction system", "procedure", "Class B, high voltage"],
        ["Larkway M12", "Traction system", "step", "12 V and 24 V"],
    ]
    assert index["starts"] == [0, 1, 2, 3, 4]


def test_an_empty_manual_has_an_index_too():
    """The search then says that nothing is found."""
    assert list(search_index.build([], {})) == ["search/index.js"]


@pytest.mark.parametrize(
    ("html", "expected"),
    [
        ("<h1 id='t'>Title</h1><p>One<br>two</p>", [("b.html", "Title", "One two")]),
        (
            '<p>A</p><h2 id="x">B &amp; C<a class="headerlink" href="#x">¶</a></h2><p>D</p>',
            [("b.html", "Title", "A"), ("b.html#x", "B & C", "D")],
        ),
        ("<p>A</p><h2>No anchor</h2><p>D</p>", [("b.html", "Title", "A No anchor D")]),
        ("<script>var a</script><svg><text>x</text></svg>", [("b.html", "Title", "")]),
    ],
)
def test_a_free_page_is_taken_apart_at_its_headings(html, expected):
    """Each heading with an anchor is a record with the text below it."""
    found = [(record.url, record.title, record.words) for record in free_text.records("b.html", "Title", html)]

    assert expected == found
