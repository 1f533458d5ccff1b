"""How text is read by the search, in Python and in the browser."""

import json
from pathlib import Path

import pytest
from bayleaf import folders
from bayleaf.site.search_text import counts, normal, squeezed, tokens
from hypothesis import given, settings
from hypothesis import strategies as st

#: Common practice: how a technician types what is printed otherwise.
SAME = [
    ("45 N·m", "45 Nm"),
    ("45 N⋅m", "45 nm"),
    ("45 N.m", "45 NM"),
    ("2,5 MΩ", "2,5 Mohm"),
    ("2,5 M\u2126", "2,5 MOHM"),
    ("100 µF", "100 uF"),
    ("100 μF", "100 uf"),
    ("P0A0D‑07", "p0a0d-07"),
    ("P0A0D–07", "P0A0D-07"),
    ("Kühlmittel", "kuhlmittel"),
    ("Straße", "strasse"),
    ("Sørensen", "sorensen"),
    ("35 mm²", "35 mm2"),
]

#: Signs and letters of the trade, accents, dashes, spaces, and scripts without case.
_TEXTS = st.text(
    alphabet=st.one_of(
        st.sampled_from("aZ09 -/._,;·⋅ΩΩωµμ°²½ßæøłđÅéñüİıςΣ–—−\u00a0\u00ad\u200b℃ﬁЖж漢字ノ\n'\"()×≤≥€"),
        st.characters(max_codepoint=0x2FFF, exclude_categories=["Cs", "Cn", "Co"]),
    ),
    max_size=40,
)


@pytest.mark.parametrize(("printed", "typed"), SAME)
def test_what_is_printed_is_found_as_it_is_typed(printed, typed):
    """Both come to the same form."""
    assert normal(typed) == normal(printed)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("P0A0D-07", ["p0a0d-07"]),
        ("X210/3, X7", ["x210/3", "x7"]),
        ("0.5 Ohm (max.)", ["0.5", "ohm", "max"]),
        ("a--b /c/ -d", ["a", "b", "c", "d"]),
    ],
)
def test_joined_words_stay_one_word(text, expected):
    """A hyphen, a slash and a point between letters or digits join; elsewhere they part."""
    assert expected == tokens(normal(text))


def test_a_joined_word_counts_by_its_parts_as_well():
    """Parts of one character are not worth a look-up."""
    assert counts(normal("P0A0D-07 X210/3 (X210/3)")) == {"p0a0d-07": 1, "p0a0d": 1, "07": 1, "x210/3": 2, "x210": 2}


@given(_TEXTS)
def test_counting_finds_the_words_that_the_expression_finds(text):
    """The fast way of splitting agrees with the plain one."""
    plain = normal(text)

    assert set(tokens(plain)) <= set(counts(plain))


@given(_TEXTS)
def test_the_normal_form_of_a_normal_form_is_itself(text):
    """Reading twice changes nothing but letters that decompose into letters to be lowered."""
    assert normal(normal(text)) == normal(text)


def test_the_browser_reads_text_as_python_does(browser):
    """The same texts in both implementations: normal form, words, and key."""
    cases: list[str] = [text for pair in SAME for text in pair]

    @settings(max_examples=600, database=None, derandomize=True)
    @given(_TEXTS)
    def collect(text: str) -> None:
        cases.append(text)

    collect()
    expected = [[normal(text), tokens(normal(text)), squeezed(normal(text))] for text in cases]
    page = browser.new_page()
    page.evaluate(Path(folders.site_theme() / "assets/search_words.js").read_text(encoding="utf-8"))
    script = Path(folders.site_theme() / "assets/search.js").read_text(encoding="utf-8")
    page.evaluate(script.replace("document.currentScript.src", "'file:///x/assets/search.js'"))
    actual = page.evaluate(
        "cases => { const s = bayleafSearch; return cases.map(c => { const n = s.normal(c); "
        "return [n, s.tokens(n), s.squeezed(n)]; }); }",
        cases,
    )
    page.close()

    differing = [(case, e, a) for case, e, a in zip(cases, expected, actual, strict=True) if e != a]
    assert differing == [], json.dumps(differing[:5], ensure_ascii=True)
