"""Slips of the pen: what is said, where, what to write instead, and what is read in spite of them.

One mistake gives one finding. `data` is what the rest of the checker goes on with: the text as it was
meant where that can be told, None where reading had to stop.
"""

import pytest
from bayleaf.loading.tree import read_source
from bayleaf.loading.yaml_reader import SlowTextLoader, TextLoader

#: name: (text, rule, (line, column, end line, end column), message, help, data)
REFUSED = {
    "colon in a text": (
        "do: P0A0D: shorted to ground\non: nothing\n",
        "colon-in-text",
        (1, 5, 1, 29),
        "the text `P0A0D: shorted to ground` holds a colon that would begin another value",
        'put the text in quotes: "P0A0D: shorted to ground"',
        {"do": "P0A0D: shorted to ground", "on": "nothing"},
    ),
    "colon in the text of a list entry": (
        "- ask: Dry: yes or no?\n",
        "colon-in-text",
        (1, 8, 1, 23),
        "the text `Dry: yes or no?` holds a colon that would begin another value",
        'put the text in quotes: "Dry: yes or no?"',
        [{"ask": "Dry: yes or no?"}],
    ),
    "colon in a text in braces": (
        "a: {do: P0A0D: x, on: y}\nb: c\n",
        "colon-in-text",
        (1, 9, 1, 17),
        "the text `P0A0D: x` holds a colon that would begin another value",
        'put the text in quotes: "P0A0D: x"',
        {"a": {"do": "P0A0D: x", "on": "y"}, "b": "c"},
    ),
    "colon at the end of a text": (
        "do: Check:\non: nothing\n",
        "colon-in-text",
        (1, 5, 1, 11),
        "the text `Check:` holds a colon that would begin another value",
        'put the text in quotes: "Check:"',
        {"do": "Check:", "on": "nothing"},
    ),
    "no space after the colon of the first key": (
        "title:Text\nkind: isolation\n",
        "space-after-colon-missing",
        (1, 1, 1, 11),
        "`title:Text` has no space after the colon",
        'write `title: Text`; if all of it is one text, put it in quotes: "title:Text"',
        {"title": "Text", "kind": "isolation"},
    ),
    "no space after the colon of a later key": (
        "id: a\ntitle:Text # remark\nkind: isolation\n",
        "space-after-colon-missing",
        (2, 1, 2, 11),
        "`title:Text` has no space after the colon",
        'write `title: Text`; if all of it is one text, put it in quotes: "title:Text"',
        {"id": "a", "title": "Text", "kind": "isolation"},
    ),
    "no space after the colon of a list entry": (
        "steps:\n  - do:Remove\n  - do: Fit\n",
        "space-after-colon-missing",
        (2, 5, 2, 14),
        "`do:Remove` has no space after the colon",
        'write `do: Remove`; if all of it is one text, put it in quotes: "do:Remove"',
        {"steps": [{"do": "Remove"}, {"do": "Fit"}]},
    ),
    "no space after the colon of the last key": (
        "- do: Park\n  on:nothing\n",
        "space-after-colon-missing",
        (2, 3, 2, 13),
        "`on:nothing` has no space after the colon",
        'write `on: nothing`; if all of it is one text, put it in quotes: "on:nothing"',
        [{"do": "Park", "on": "nothing"}],
    ),
    "no space after a colon in braces": (
        "a: {do:Park, on: x}\n",
        "space-after-colon-missing",
        (1, 5, 1, 12),
        "`do:Park` has no space after the colon",
        'write `do: Park`; if all of it is one text, put it in quotes: "do:Park"',
        {"a": {"do": "Park", "on": "x"}},
    ),
    "no-break space after a colon": (
        "title:\xa0Text\nkind: x\n",
        "space-after-colon-missing",
        (1, 1, 1, 12),
        "the space after `title:` is a no-break space (U+00A0)",
        'write `title: Text`; if all of it is one text, put it in quotes: "title: Text"',
        {"title": "Text", "kind": "x"},
    ),
    "text that starts with *": (
        "do: *5 bolts\non: x\n",
        "special-character-opens-text",
        (1, 5, 1, 13),
        "the text `*5 bolts` begins with `*`",
        'put the text in quotes: "*5 bolts"',
        {"do": "*5 bolts", "on": "x"},
    ),
    "text that starts with a lonely *": (
        "do: * 5 bolts\n",
        "special-character-opens-text",
        (1, 5, 1, 14),
        "the text `* 5 bolts` begins with `*`",
        'put the text in quotes: "* 5 bolts"',
        {"do": "* 5 bolts"},
    ),
    "text that starts with &": (
        "do: &seal ring\n",
        "special-character-opens-text",
        (1, 5, 1, 15),
        "the text `&seal ring` begins with `&`",
        'put the text in quotes: "&seal ring"',
        {"do": "&seal ring"},
    ),
    "text that starts with !": (
        "do: !important: read on\n",
        "special-character-opens-text",
        (1, 5, 1, 24),
        "the text `!important: read on` begins with `!`",
        'put the text in quotes: "!important: read on"',
        {"do": "!important: read on"},
    ),
    "text that starts with ! and words": (
        "say: !Danger of death\n",
        "special-character-opens-text",
        (1, 6, 1, 22),
        "the text `!Danger of death` begins with `!`",
        'put the text in quotes: "!Danger of death"',
        {"say": "!Danger of death"},
    ),
    "text that starts with %": (
        "limits: % of reading\n",
        "special-character-opens-text",
        (1, 9, 1, 21),
        "the text `% of reading` begins with `%`",
        'put the text in quotes: "% of reading"',
        {"limits": "% of reading"},
    ),
    "line that starts with %": (
        "a: b\n%c: d\n",
        "special-character-opens-text",
        (2, 1, 2, 6),
        "the text `%c: d` begins with `%`",
        'put the text in quotes: "%c: d"',
        {"a": "b"},
    ),
    "text that starts with @": (
        "do: @driver Park\n",
        "special-character-opens-text",
        (1, 5, 1, 17),
        "the text `@driver Park` begins with `@`",
        'put the text in quotes: "@driver Park"',
        {"do": "@driver Park"},
    ),
    "text that starts with a backtick": (
        "do: `Park`\n",
        "special-character-opens-text",
        (1, 5, 1, 11),
        "the text ``Park`` begins with ```",
        'put the text in quotes: "`Park`"',
        {"do": "`Park`"},
    ),
    "text that starts with a bracket": (
        "do: [left] Remove\non: x\n",
        "special-character-opens-text",
        (1, 5, 1, 18),
        "the text `[left] Remove` begins with `[`",
        'put the text in quotes: "[left] Remove"',
        {"do": "[left] Remove", "on": "x"},
    ),
    "text that starts with a brace": (
        "do: {left} Remove\non: x\n",
        "special-character-opens-text",
        (1, 5, 1, 18),
        "the text `{left} Remove` begins with `{`",
        'put the text in quotes: "{left} Remove"',
        {"do": "{left} Remove", "on": "x"},
    ),
    "text that starts with >": (
        "limits: > 5 V\n",
        "special-character-opens-text",
        (1, 9, 1, 14),
        "the text `> 5 V` begins with `>`",
        'put the text in quotes: "> 5 V"',
        {"limits": "> 5 V"},
    ),
    "text that starts with |": (
        "do: |U| must fall\n",
        "special-character-opens-text",
        (1, 5, 1, 18),
        "the text `|U| must fall` begins with `|`",
        'put the text in quotes: "|U| must fall"',
        {"do": "|U| must fall"},
    ),
    "text that starts with a dash": (
        "limits: - 5 V\n",
        "special-character-opens-text",
        (1, 9, 1, 14),
        "the text `- 5 V` begins with `-`",
        'put the text in quotes: "- 5 V"',
        {"limits": "- 5 V"},
    ),
    "text that starts with ?": (
        "ask: ? dry\n",
        "special-character-opens-text",
        (1, 6, 1, 11),
        "the text `? dry` begins with `?`",
        'put the text in quotes: "? dry"',
        {"ask": "? dry"},
    ),
    "alias": (
        "a: &base\n  x: 1\nb: *base\n",
        "alias-or-anchor",
        (3, 4, 3, 9),
        "`*base` stands for something written elsewhere",
        "write out what `&base` stands for",
        {"a": {"x": "1"}, "b": "*base"},
    ),
    "anchor that nothing uses": (
        "a: &base\n  x: 1\n",
        "alias-or-anchor",
        (1, 4, 1, 9),
        "`&base` gives a name to what follows, and nothing uses it",
        "delete `&base`; if it belongs to a text, put the text in quotes",
        {"a": {"x": "1"}},
    ),
    "tag": (
        "a: !!str 5\n",
        "tagged-value",
        (1, 4, 1, 9),
        "`!!str` stands before the value and would change what it is",
        "delete `!!str`",
        {"a": "5"},
    ),
    "tag before a list": (
        "a: !ref [b]\n",
        "tagged-value",
        (1, 4, 1, 8),
        "`!ref` stands before the value and would change what it is",
        "delete `!ref`",
        {"a": ["b"]},
    ),
    "text cut at #": (
        "secure_with: Padlock #3\n",
        "text-cut-at-hash",
        (1, 22, 1, 24),
        "`#3` is taken for a remark: of this text only `Padlock` would be read",
        'put the text in quotes: "Padlock #3"; if a remark was meant, put a space after the `#`',
        {"secure_with": "Padlock #3"},
    ),
    "text that begins with #": (
        "- name: #3 lock\n",
        "text-cut-at-hash",
        (1, 9, 1, 16),
        "`#3 lock` is taken for a remark: it is no text",
        'put the text in quotes: "#3 lock"; if a remark was meant, put a space after the `#`',
        [{"name": "#3 lock"}],
    ),
    "text cut at # in braces": (
        "a: {b: Padlock #3, c: d}\n",
        "text-cut-at-hash",
        (1, 16, 1, 18),
        "`#3` is taken for a remark: of this text only `Padlock` would be read",
        'put the text in quotes: "Padlock #3"; if a remark was meant, put a space after the `#`',
        {"a": {"b": "Padlock #3", "c": "d"}},
    ),
    "comma in braces": (
        "a: {do: Park, select P}\n",
        "key-without-value-in-braces",
        (1, 15, 1, 23),
        "`select P` stands in braces without a value",
        'put the text in quotes: `{do: "Park, select P"}`',
        {"a": {"do": "Park, select P"}},
    ),
    "comma in a key in braces": (
        "- {yes, it is: isolate}\n",
        "key-without-value-in-braces",
        (1, 4, 1, 7),
        "`yes` stands in braces without a value",
        'put the text in quotes: `{"yes, it is": isolate}`',
        [{"yes, it is": "isolate"}],
    ),
    "two commas in braces": (
        "{do: Park, select P, wait, on: x}\n",
        "key-without-value-in-braces",
        (1, 12, 1, 20),
        "`select P` stands in braces without a value",
        'put the text in quotes: `{do: "Park, select P, wait", on: x}`',
        {"do": "Park, select P, wait", "on": "x"},
    ),
    "key without a value in braces": (
        "a: {P}\n",
        "key-without-value-in-braces",
        (1, 5, 1, 6),
        "`P` stands in braces without a value",
        "write a value: `{P: …}`",
        {"a": {"P": None}},
    ),
    "curly quote as opener": (
        "say: “Voltage present”\n",
        "curly-quote-opens-text",
        (1, 6, 1, 23),
        "the text begins with the curly quote “",
        'write "Voltage present"',
        {"say": "“Voltage present”"},
    ),
    "low curly quote as opener": (
        "say: „Voltage present“\n",
        "curly-quote-opens-text",
        (1, 6, 1, 23),
        "the text begins with the curly quote „",
        'write "Voltage present"',
        {"say": "„Voltage present“"},
    ),
    "curly quotes around a colon": (
        "say: “P0A0D: present”\n",
        "curly-quote-opens-text",
        (1, 6, 1, 22),
        "the text begins with the curly quote “",
        'write "P0A0D: present"',
        {"say": "“P0A0D: present”"},
    ),
    "curly quotes around a comma in braces": (
        "{say: “a, b”, on: x}\n",
        "curly-quote-opens-text",
        (1, 7, 1, 13),
        "the text begins with the curly quote “",
        'write "a, b"',
        {"say": "“a, b”", "on": "x"},
    ),
    "tab as indent": (
        "a:\n\tb: c\n",
        "tab-as-indent",
        (2, 1, 2, 2),
        "this line is indented with a tab",
        "replace each tab before `b: c` by spaces, two for each level",
        {"a": {"b": "c"}},
    ),
    "tabs as indent": (
        "a:\n\tb: c\n\td:\n\t\te: f\n",
        "tab-as-indent",
        (2, 1, 2, 2),
        "this line is indented with a tab, and so are 2 more",
        "replace each tab before `b: c` by spaces, two for each level",
        {"a": {"b": "c", "d": {"e": "f"}}},
    ),
    "no-break space as indent": (
        "- do: Park\n\xa0 on: nothing\n",
        "no-break-space-as-indent",
        (2, 1, 2, 3),
        "this line is indented with a no-break space (U+00A0) instead of an ordinary space",
        "delete the space before `on: nothing` and type ordinary spaces",
        [{"do": "Park", "on": "nothing"}],
    ),
    "ideographic space as indent": (
        "- do: Park\n\u3000on: nothing\n",
        "no-break-space-as-indent",
        (2, 1, 2, 2),
        "this line is indented with an ideographic space (U+3000) instead of an ordinary space",
        "delete the space before `on: nothing` and type ordinary spaces",
        None,
    ),
    "zero width space": (
        "between: X7\u200b/1\n",
        "invisible-character",
        (1, 12, 1, 13),
        "a zero width space (U+200B) stands here and cannot be seen",
        "delete it, or type the line anew: `between: X7/1`",
        {"between": "X7/1"},
    ),
    "soft hyphen": (
        "do: Re\xadmove\n",
        "invisible-character",
        (1, 7, 1, 8),
        "a soft hyphen (U+00AD) stands here and cannot be seen",
        "delete it, or type the line anew: `do: Remove`",
        {"do": "Remove"},
    ),
    "byte order mark inside": (
        "a: b\n\ufeffc: d\n",
        "invisible-character",
        (2, 1, 2, 2),
        "a byte order mark (U+FEFF) stands here and cannot be seen",
        "delete it, or type the line anew: `c: d`",
        {"a": "b", "c": "d"},
    ),
    "control characters": (
        "do: a\x07\x08b\n",
        "invisible-character",
        (1, 6, 1, 8),
        "2 invisible characters, the first a control character (U+0007), stand here and cannot be seen",
        "delete it, or type the line anew: `do: ab`",
        {"do": "ab"},
    ),
    "line separator": (
        "do: a\u2028b\n",
        "invisible-character",
        (1, 6, 1, 7),
        "a line separator (U+2028) stands here and cannot be seen",
        "delete it, or type the line anew: `do: ab`",
        {"do": "ab"},
    ),
    "repeated key": (
        "torque: 5 N·m\nangle: 30°\ntorque: 6 N·m\n",
        "repeated-key",
        (3, 1, 3, 7),
        "`torque` is written twice for the same thing",
        "keep one `torque` and take the other out",
        {"torque": "5 N·m", "angle": "30°"},
    ),
    "repeated key with a dash missing": (
        "- do: a\n  do: b\n",
        "repeated-key",
        (2, 3, 2, 5),
        "`do` is written twice for the same thing",
        "keep one `do`; if a new list entry was meant, put a dash before its first key",
        [{"do": "a"}],
    ),
    "list as a key": (
        "? [a]\n: b\nc: d\n",
        "key-not-text",
        (1, 3, 1, 6),
        "`[a]` stands where a key is expected, but is no text",
        "write a text as the key; if a list was meant, put it behind a key and a colon",
        {"c": "d"},
    ),
    "missing key": (
        ": b\nc: d\n",
        "key-not-text",
        (1, 1, 1, 2),
        "the key before this colon is missing",
        "write the key: `key: b`",
        {"c": "d"},
    ),
    "second document": (
        "a: b\n---\nc: d\n",
        "several-documents",
        (2, 1, 2, 4),
        "a second document begins here",
        "delete the line `---`, or move what follows it to another file",
        {"a": "b"},
    ),
    "nothing but remarks": (
        "# later\n\n",
        "file-empty",
        (1, 1, 1, 1),
        "the file holds nothing but empty lines and remarks",
        "write it, beginning with `format: 1`, or delete it",
        None,
    ),
    "nothing at all": (
        "",
        "file-empty",
        (1, 1, 1, 1),
        "the file holds nothing but empty lines and remarks",
        "write it, beginning with `format: 1`, or delete it",
        None,
    ),
    "quote not closed": (
        'do: "Park\non: nothing\n',
        "not-readable",
        (1, 5, 1, 10),
        'the quote `"` that opens here is not closed on this line',
        'write "Park"',
        {"do": "Park", "on": "nothing"},
    ),
    "quote closed lines later": (
        'do: "Park\nsay: "Wait"\non: x\n',
        "not-readable",
        (1, 5, 1, 10),
        'the quote `"` that opens here is not closed on this line',
        'write "Park"',
        {"do": "Park", "say": "Wait", "on": "x"},
    ),
    "apostrophe as opener": (
        "do: 'til it stops\non: x\n",
        "not-readable",
        (1, 5, 1, 18),
        "the quote `'` that opens here is not closed on this line",
        'write "til it stops"',
        {"do": "til it stops", "on": "x"},
    ),
    "text behind a closing quote": (
        'do: "Park" the vehicle\n',
        "not-readable",
        (1, 12, 1, 23),
        "`the vehicle` stands behind the quote that ends the text",
        "put the whole text in quotes: '\"Park\" the vehicle'",
        {"do": '"Park" the vehicle'},
    ),
    "backslash in double quotes": (
        'file: "C:\\dir"\n',
        "not-readable",
        (1, 10, 1, 12),
        "`\\d` means nothing inside double quotes",
        "put the text in single quotes: 'C:\\dir'",
        {"file": "C:\\dir"},
    ),
    "half a character in double quotes": (
        'a: "\\uD800"\n',
        "not-readable",
        (1, 5, 1, 7),
        "`\\u` means nothing inside double quotes",
        "put the text in single quotes: '\\uD800'",
        {"a": "\\uD800"},
    ),
    "bracket not closed": (
        "between: [X7/1, chassis\ntake: lowest\n",
        "not-readable",
        (1, 10, 1, 24),
        "the bracket `[` that opens here is not closed",
        "write `[X7/1, chassis]`; if it is a text, put it in quotes",
        {"between": ["X7/1", "chassis"], "take": "lowest"},
    ),
    "bracket closed by a brace": (
        "a: {b: [1, 2}\n",
        "not-readable",
        (1, 8, 1, 13),
        "the bracket `[` that opens here is not closed",
        "write `[1, 2]`; if it is a text, put it in quotes",
        {"a": {"b": ["1", "2"]}},
    ),
    "brace not closed": (
        "- {do: Park   # remark\n- do: b\n",
        "not-readable",
        (1, 3, 1, 12),
        "the bracket `{` that opens here is not closed",
        "write `{do: Park}`; if it is a text, put it in quotes",
        [{"do": "Park"}, {"do": "b"}],
    ),
    "line without a colon": (
        "do: Park\nand secure\non: x\n",
        "not-readable",
        (2, 1, 2, 11),
        "`and secure` has no colon, so it is no key, and its indent makes it no text either",
        "put a colon behind its key, or write the key before it; if it goes on with the text above, indent it deeper "
        "than that key",
        {"do": "Park", "and": "secure", "on": "x"},
    ),
    "indent deeper than a text": (
        "do: Park\n  on: nothing\n",
        "not-readable",
        (2, 3, 2, 5),
        "`on` is indented deeper than the line above, which has its value already",
        "give the line the same indent as the key above it",
        None,
    ),
    "indent that fits no line": (
        "a:\n    b: c\n  d: e\n",
        "not-readable",
        (3, 3, 3, 7),
        "the indent of `d: e` fits no line above",
        "give it the indent of the lines it belongs to",
        None,
    ),
    "dash among keys": (
        "a: b\n- c\n",
        "not-readable",
        (2, 1, 2, 4),
        "`- c` stands where the next key should begin",
        "give it the indent of the list it belongs to",
        None,
    ),
    "key among dashes": (
        "- a\nb: c\n",
        "not-readable",
        (2, 1, 2, 5),
        "`b: c` stands where the next entry of the list should begin",
        "put a dash before it, or give it the indent of the keys it belongs to",
        None,
    ),
    "dash deeper than its list": (
        "tools:\n  - wrench\n    - lamp\n",
        "list-entry-read-as-text",
        (3, 5, 3, 11),
        "`- lamp` would be read as more of the text above",
        "give the dash the same indent as the dashes of its list",
        {"tools": ["wrench", "lamp"]},
    ),
    "nested too deep": (
        "a: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]\n",
        "nested-too-deep",
        (1, 42, 1, 43),
        "lists and maps stand inside one another more than 40 deep here",
        "look for brackets that are never closed, or for lines that move further and further to the right",
        None,
    ),
    "bracket that closes nothing": (
        "a: b\n}\n",
        "not-readable",
        (2, 1, 2, 2),
        "this line cannot be read: `}`",
        "compare its indent, colon, quotes and brackets with those of the lines around it",
        None,
    ),
}


@pytest.mark.parametrize("loader", [TextLoader, SlowTextLoader])
@pytest.mark.parametrize(("text", "rule", "place", "message", "help", "data"), REFUSED.values(), ids=REFUSED)
def test_one_slip_gives_one_finding_that_says_what_to_write(text, rule, place, message, help, data, loader):
    """Rule, place, message and help, whole; the same from both readers."""
    source = read_source("a.yml", text.encode(), loader)

    found = [(f.rule, tuple(f.place)[1:], f.message, f.help) for f in source.findings]
    assert [(rule, place, message, help)] == found
    assert data == source.data


JARGON = ("scalar", "mapping", "sequence", "token", "node", "alias", "anchor", "yaml", "parse", "scan", "none", "dict")


@pytest.mark.parametrize("text", [row[0] for row in REFUSED.values()], ids=REFUSED)
def test_findings_speak_the_words_of_a_workshop(text):
    """Form errors, one line each, with a reason and a help, free of the words of programmers."""
    (finding,) = read_source("a.yml", text.encode()).findings

    assert (finding.kind, finding.severity) == ("form", "error")
    assert finding.because and finding.help and "\n" not in finding.message
    words = f"{finding.message} {finding.because}".lower()
    assert [word for word in JARGON if word in words] == []


def test_several_slips_of_one_file_are_told_together():
    """A slip that can be understood does not hide the next one."""
    text = "a: P0A0D: x\nb:c\nd: @e\nf: Padlock #3\ng: {h: i, j}\n"
    source = read_source("a.yml", text.encode())

    assert [(finding.rule, finding.place.line) for finding in source.findings] == [
        ("colon-in-text", 1),
        ("space-after-colon-missing", 2),
        ("special-character-opens-text", 3),
        ("text-cut-at-hash", 4),
        ("key-without-value-in-braces", 5),
    ]
    assert source.data == {"a": "P0A0D: x", "b": "c", "d": "@e", "f": "Padlock #3", "g": {"h": "i, j"}}


def test_repeated_key_and_alias_show_the_other_place():
    """`see` leads to the first of two equal keys, and to what an alias stands for."""
    repeated = read_source("a.yml", b"x: 1\nx: 2\n").findings[0]
    alias = read_source("a.yml", b"x: &n [1]\ny: *n\n").findings[0]

    assert [(tuple(s.place)[1:], s.text) for s in repeated.see] == [((1, 1, 1, 2), "`x` stands here already")]
    assert [(tuple(s.place)[1:], s.text) for s in alias.see] == [((1, 4, 1, 6), "`&n` stands here")]


def test_findings_of_one_rule_are_bounded():
    """A hundred equal slips are one habit, told twenty times."""
    source = read_source("a.yml", "".join(f"k{n}: a\u200bb\n" for n in range(100)).encode())

    assert len(source.findings) == 20
    assert source.data["k99"] == "ab"
