"""The rules about how a file is written: what their pages cannot show, and that each has its page."""

import ast
from collections.abc import Iterator, Set
from pathlib import Path

import bayleaf
import pytest
from bayleaf.diagnostics.finding import Finding
from bayleaf.rules.rule import all_rules
from kit import BASES, PLACES, check, completed

PACKAGE = Path(bayleaf.__file__).parent

#: Functions and values whose argument of this number, or by the name `rule`, is the name of a rule.
_MAKERS = {"Finding": 0, "Shape": 0, "Problem": 0, "Slip": 0, "fault": 0, "_Refused": 2}
#: The one function that is called `fault` or `Fault` and has a rule for its first argument elsewhere too.
_FAULT_OF_TEXT = "text.py"


@pytest.fixture(scope="module")
def emitted() -> Set[str]:
    """Every name of a rule that the source gives to a finding."""
    return {name for name, _ in _emitted()}


def _emitted() -> Iterator[tuple[str, str]]:
    """The names, each with the file that gives it."""
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                yield from ((name, path.name) for name in _names_in(node, path.name))
            elif isinstance(node, ast.ClassDef) and node.name == "_Refused":
                yield from (
                    (part.value.value, path.name) for part in node.body
                    if isinstance(part, ast.AnnAssign) and ast.unparse(part.target) == "rule"
                    and isinstance(part.value, ast.Constant)
                )  # fmt: skip


def _names_in(call: ast.Call, file: str) -> Iterator[str]:
    function = getattr(call.func, "id", getattr(call.func, "attr", ""))
    makers = {**_MAKERS, "Fault": 0} if file == _FAULT_OF_TEXT else _MAKERS
    if function in makers:
        number = makers[function]
        values = [*call.args[number : number + 1], *(word.value for word in call.keywords if word.arg == "rule")]
        yield from (value.value for value in values if isinstance(value, ast.Constant))


RULES = {rule.name: rule for rule in all_rules()}


def test_the_search_for_names_finds_them(emitted: Set[str]) -> None:
    """A test of the test: names from each kind of place are among those found."""
    assert {"unknown-key", "tab-as-indent", "not-utf-8", "unit-missing", "number-ambiguous", "number-unreadable",
            "limit-unreadable", "exit-not-possible", "group-within-group", "file-empty"} <= emitted  # fmt: skip
    assert 45 <= len(emitted)


def test_every_name_that_is_emitted_has_a_page(emitted: Set[str]) -> None:
    """A finding without a page could not be explained."""
    assert set() == emitted - RULES.keys()


def test_every_page_without_a_check_is_emitted_somewhere(emitted: Set[str]) -> None:
    """A page that nothing leads to describes a rule that does not exist."""
    assert [] == [rule.name for rule in RULES.values() if not rule.checks and rule.name not in emitted]


def test_no_two_families_have_a_rule_of_one_name() -> None:
    """The name alone tells the page."""
    names = [rule.name for rule in all_rules()]

    assert sorted(set(names)) == sorted(names)


def findings(tmp_path: Path, text: str | bytes, kind: str = "procedure") -> list[Finding]:
    """What is told about one file of the small manual; a text is completed, bytes stand as they are."""
    file = completed(text, BASES[kind]) if isinstance(text, str) else text
    return list(check(tmp_path, {PLACES[kind]: file}).findings)


def told(found: list[Finding]) -> list[tuple[int, int, str, str]]:
    """Line, column, rule and words of each."""
    return [(one.place.line, one.place.column, one.rule, one.message) for one in found]


def test_a_file_in_windows_1252(tmp_path) -> None:
    """The sign that was meant is named, and its place."""
    data = completed("title: Läuft\n", BASES["procedure"]).encode("cp1252")
    message = "the file is not saved as UTF-8: byte 0xE4 stands here, which would be “ä” in Windows-1252"

    assert [(1, 9, "not-utf-8", message)] == told(findings(tmp_path, data))


def test_a_file_in_utf_16_without_a_mark(tmp_path) -> None:
    """Every second byte is zero."""
    data = completed("title: Läuft\n", BASES["procedure"]).encode("utf-16-le")

    assert [(1, 1, "not-utf-8", "the file is saved as UTF-16 without a mark, not as UTF-8")] == told(
        findings(tmp_path, data)
    )


def test_a_file_in_utf_16_with_a_mark_is_read(tmp_path) -> None:
    """The mark tells what it is."""
    data = b"\xff\xfe" + completed("title: Läuft\n", BASES["procedure"]).encode("utf-16-le")

    assert [] == told(findings(tmp_path, data))


def test_a_file_that_is_too_large(tmp_path) -> None:
    """One byte more than a mebibyte; one that just fits is read."""
    base = completed("title: Test job\n", BASES["procedure"])
    fits = base + "#" * (1_048_576 - len(base.encode()))

    assert [] == told(findings(tmp_path, fits.encode()))
    message = "the file holds 1 048 577 bytes; at most 1 048 576 are read"
    assert [(1, 1, "file-too-large", message)] == told(findings(tmp_path, (fits + "#").encode()))


def test_a_text_that_is_cut_at_a_hash(tmp_path) -> None:
    """The help shows the line as it has to be written."""
    found = findings(tmp_path, "steps:\n  - on: nothing\n    do: Fit padlock #3 to the flap.\n")

    message = "`#3 to the flap.` is taken for a remark: of this text only `Fit padlock` would be read"
    assert [(3, 21, "text-cut-at-hash", message)] == told(found)
    assert 'put the text in quotes: "Fit padlock #3 to the flap."' in (found[0].help or "")


@pytest.mark.parametrize(
    ("text", "line", "rule", "message", "help_"),
    [
        ("steps:\n  - do: x\n    on: nothing\n    frobnicate: y\n", 4, "unknown-key",
         "`frobnicate` is no key of a step",
         "take it out, or say it in words with `do`; the page of the format lists the keys of a step"),
        ("people: {atleast: 2}\n", 1, "unknown-key", "`atleast` is no key of `people`", "did you mean `at_least`?"),
        ("revisions:\n  - number: 1\n    date: 2026-09-30\n", 2, "missing-key", "revision 1 has no `why`",
         "add `why: …`"),
        ("steps:\n  - set: {}\n", 2, "missing-key", "`set` has no `mode`",
         "add `mode: …`, with one of: asleep, off, ignition, ready, engine running, charging"),
        ("steps:\n  - for_each: [X7]\n", 2, "missing-key", "`for_each` needs `steps` beside it",
         "add to the same step: `steps:` and below it a list, each item behind a dash"),
        ("steps: Look.\n", 1, "wrong-shape", "`steps` holds the text `Look.`, but takes a list",
         "write the steps, each behind a dash, such as `- do: …`"),
        ("steps:\n  - Look.\n", 2, "wrong-shape", "step 1 is the text `Look.`, but takes keys with values",
         "write what is done behind a key, such as `- do: …`"),
        ("people:\n  - at_least: 2\n", 2, "wrong-shape", "`people` holds a list, but takes keys with values",
         "take the dash or the brackets away; its keys are: at_least, who"),
        ("revisions:\n  number: 1\n  date: 2026-09-30\n  why: x\n", 2, "wrong-shape",
         "`revisions` holds keys with values, but takes a list", "begin each item with a dash: `- number: …`"),
        ("trouble_codes: P0AA6\n", 1, "wrong-shape", "`trouble_codes` holds the text `P0AA6`, but takes a list",
         "write each item on a line of its own behind a dash, or in brackets: `trouble_codes: [P0AA6]`"),
        ("title: [Test, job]\n", 1, "wrong-shape", "`title` holds a list, but takes a text",
         "write it as one text: `title: Test, job`"),
        ("waive: limit-without-source\n", 1, "wrong-shape",
         "`waive` holds the text `limit-without-source`, but takes a list",
         "write a list; each item begins with a dash, and its keys are: rule, why"),
        ("steps:\n  - ask: Dry?\n    answers:\n      - {answer: yes, then: end}\n", 4, "wrong-shape",
         "`answers` has only 1 item, but takes at least 2",
         "write two answers or more, each on two lines: `- answer: …` and below it `then: …`"),
        ("kind: repairs\n", 1, "word-not-in-list", "`repairs` is none of the words for `kind`",
         "did you mean `repair`? The words are: isolation, return to service, diagnosis, repair, replacement, "
         "inspection, maintenance, making safe"),
        ("format: 2\n", 1, "word-not-in-list", "`format` cannot be `2`", "write `format: 1`"),
        ("steps:\n  - do: x\n    on: nothing\n    attended: maybe\n", 4, "word-not-in-list",
         "`maybe` is neither yes nor no", "write `attended: yes` or `attended: no`"),
        ("steps:\n  - set: {mode: }\n", 2, "empty-value", "`mode` has no value",
         "write one of: asleep, off, ignition, ready, engine running, charging"),
        ("steps:\n  - wait:\n", 2, "empty-value", "`wait` has no value", "write a time, such as `12 min`"),
        ("steps:\n  - wait: 5 min\n    for:\n", 3, "empty-value", "`for` has no value",
         "take the key out, or write a text or a list of texts"),
        ("steps:\n  -\n  - wait: 5 min\n", 2, "empty-value", "step 1 has no value",
         "take the dash or the comma out"),
        ("steps:\n  - wait: 5 min\n    repeat: 2\n", 3, "wrong-form", "`repeat` cannot be `2`",
         "write `at most 2`: at most and a number"),
        ("steps:\n  - read: x\n    ask: Dry?\n", 3, "two-actions-in-one-step",
         "`ask` is a second action in this step, beside `read`",
         "put a dash before it, so that it is a step of its own: `- ask: …`"),
        ("steps:\n  - frobnicate: x\n", 2, "step-without-action",
         "`frobnicate` is no action of a step, and the step has no other",
         "say it in words with `do: …`, or name an action such as `measure`, `disconnect`, `tighten`"),
        ("steps:\n  - do: Look.\n    on: nothing\n    mesure: x\n    quantity: voltage\n", 4, "step-without-action",
         "`mesure` is no action of a step", "did you mean `measure`?"),
        ("steps:\n  - ask: Dry?\n    outcomes: {yes: end}\n    answers:\n      - {answer: yes, then: end}\n"
         "      - {answer: no, then: end}\n", 3, "key-does-not-fit-action", "`outcomes` does not go with `ask`",
         "say what follows with `then` in each of the answers"),
        ("steps:\n  - read: x\n    using: multimeter\n", 3, "key-does-not-fit-action",
         "`using` does not go with `read`", "`using` goes with: prove_dead, prove_safe, measure, discharge"),
    ],
)  # fmt: skip
def test_words_of_a_fault_of_shape(tmp_path, text: str, line: int, rule: str, message: str, help_: str) -> None:
    """One fault, on its line, with what is wrong and what to write."""
    found = findings(tmp_path, text)

    assert [(line, rule, message, help_)] == [(f.place.line, f.rule, f.message, f.help) for f in found]


@pytest.mark.parametrize(
    ("kind", "text", "line", "message", "help_"),
    [
        ("vehicle", "circuits: [traction]\n", 1, "`circuits` holds a list, but takes keys with values",
         "write each name on a line of its own, a colon, and below it, indented, what belongs to it"),
        ("vehicle", "connectors:\n  X9:\n    name: x\n    pins:\n      1: ground\n", 5,
         "the pin `1` holds the text `ground`, but takes keys with values",
         "write what the pin carries, such as `{signal: ground, circuit: supply-12}`"),
        ("vehicle", "cables:\n  strap: {name: Strap, circuit: none, between: [X1/1]}\n", 2,
         "`between` holds 1 contact, but takes two",
         "write the two points of the measurement: `[X7/1 device, chassis]`"),
        ("workshop", "tools: [box]\n", 1, "`tools` holds a list, but takes keys with values",
         "write each name on a line of its own, a colon, and below it, indented, what belongs to it"),
        ("workshop", "labour: {rate: 95}\n", 1, "`rate` cannot be `95`",
         "write an amount by the hour, such as 95 EUR/h"),
        ("workshop", "protection:\n  gloves-0: {class: class 7}\n", 2,
         "`class 7` is none of the words for `class`",
         "write one of: 00, 0, 1, 2, 3, 4, class 00, class 0, class 1, class 2, class 3, class 4"),
        ("record", "entries:\n  - {done: yes}\n", 2, "entry 1 has no `step`", "add `step: …`"),
    ],
)  # fmt: skip
def test_words_in_other_kinds_of_file(tmp_path, kind: str, text: str, line: int, message: str, help_: str) -> None:
    """The thing is called by its own name, and the help is that of its key."""
    found = [finding for finding in findings(tmp_path, text, kind) if finding.place.file == PLACES[kind]]

    assert (line, message, help_) in [(f.place.line, f.message, f.help) for f in found]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("steps:\n  - ask: Dry?\n    answers: [yes, no, perhaps]\n", [(3, "wrong-shape")]),
        ("steps:\n  - measure: U\n    quantity: voltage\n    limts: at least 5 V\n    source: workshop practice\n",
         [(4, "unknown-key")]),
        ("steps:\n  - do: Look.\n    on: nothing\n    dangr: {hazrd: x, consequence: y, avoid: z}\n",
         [(4, "unknown-key"), (4, "unknown-key")]),
        ("steps:\n  - do: Look.\n    on: nothing\n    danger: {hazrd: x, consequence: y}\n",
         [(4, "missing-key"), (4, "unknown-key")]),
        ("steps:\n  - aks: Dry?\n    limits: x\n    frob: y\n", [(2, "step-without-action")]),
        ("steps:\n  - for_each: [X1, X7]\n    steps:\n      - mesure: x\n      - wait: 5\n",
         [(4, "step-without-action"), (5, "unit-missing")]),
        ("steps:\n  - wait: *five\n", [(2, "special-character-opens-text")]),
    ],
)  # fmt: skip
def test_one_mistake_gives_one_error(tmp_path, text: str, expected: list[tuple[int, str]]) -> None:
    """What follows from a fault is not told as another one; what stands beside it is."""
    assert expected == [(finding.place.line, finding.rule) for finding in findings(tmp_path, text)]


def test_a_key_that_was_put_right_is_shown_where_it_stands(tmp_path) -> None:
    """A fault below a misspelt key is at its own place, not at that of the key."""
    found = findings(tmp_path, "aplies: {built: two}\n")

    assert [(1, 1, "unknown-key", "`aplies` is no key of a procedure"),
            (1, 17, "wrong-form", "`built` cannot be `two`")] == told(found)  # fmt: skip


def test_every_sentence_is_one_line_and_not_the_validators(tmp_path) -> None:
    """No path into a tree, no word of a programming language."""
    text = "steps:\n  - set: 5\n    on: {}\n  - do: [x]\n  - measure: {}\n    quantity: 5\n    between: x\npeople: x\n"

    found = findings(tmp_path, text)
    assert 5 <= len(found)
    for one in found:
        words = f"{one.message} {one.because} {one.help}"
        assert "\n" not in words
        assert not any(odd in words for odd in ("object", "array", "string", "null", "schema", "/steps", "dict"))
