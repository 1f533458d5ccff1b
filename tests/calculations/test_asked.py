"""What somebody types is understood or refused, never guessed."""

from fractions import Fraction

import pytest
from bayleaf.calculations.answer import compute, curve_points, understood_text
from bayleaf.calculations.asked import Refused, ask, example_of, find_formula, split_call
from bayleaf.calculations.families import families, family_of
from bayleaf.calculations.formula import Formula, Input, Output, all_formulas, formula_named


def formula(name: str) -> Formula:
    found = formula_named(name)
    assert found is not None
    return found


@pytest.mark.parametrize("one", all_formulas(), ids=lambda one: one.slug)
def test_every_example_can_be_typed(one: Formula) -> None:
    """Its texts are read, and give a result for every output."""
    results = compute(example_of(one))

    assert [output.title for output in one.outputs] == [result.output.title for result in results]
    assert all(result.text for result in results)


@pytest.mark.parametrize(
    ("name", "text", "understood"),
    [
        ("R", "47kohm", "47 kΩ = 47000 Ω"),
        ("R", "47 kOhm", "47 kΩ = 47000 Ω"),
        ("C", "1,1 mF", "1.1 mF = 0.0011 F"),
        ("C", "600uF", "600 µF = 0.0006 F"),
        ("from", "410mV", "410 mV = 0.41 V"),
        ("from", "410MV", None),
        ("from", "410 V", "410 V"),
    ],
)
def test_a_value_in_every_accepted_spelling(name: str, text: str, understood: str | None) -> None:
    """The size in the unit of the formula stands behind it, so that a wrong prefix is seen; there is no megavolt."""
    given = {"R": "1 Ω", "C": "1 F", "from": "100 V"} | {name: text}
    if understood is None:
        with pytest.raises(Refused, match="410 mV"):
            ask(formula("discharge"), given.items())
        return
    found = ask(formula("discharge"), given.items())
    assert understood == next(understood_text(one) for one in found.inputs if one.input.name == name)


LIST = Formula(
    "list",
    "List",
    (Input("R", "Resistances", "Ω", several=True),),
    (Output("Sum", "Ω"),),
    sum,
    "",
    "",
    "",
    {"R": "1 Ω"},
)
PLAIN = Formula("plain", "Plain", (Input("n", "Numbers", several=True),), (Output("Sum"),), sum, "", "", "", {"n": "1"})


@pytest.mark.parametrize(
    ("of", "text", "values"),
    [
        (LIST, "10kΩ,22kΩ", [10000, 22000]),
        (LIST, "10 kΩ, 22 kΩ", [10000, 22000]),
        (LIST, "1,5 kΩ; 2,2 kΩ", [1500, 2200]),
        (LIST, "1,5kΩ,2,2kΩ", [1500, 2200]),
        (LIST, "1,5 kΩ", [1500]),
        (PLAIN, "1; 2,5; 3", [1, 2.5, 3]),
        (PLAIN, "1, 2.5, 3", [1, 2.5, 3]),
        (PLAIN, "1,2,3", [1, 2, 3]),
        (PLAIN, "1.5,2.5", [1.5, 2.5]),
        (PLAIN, "7", [7]),
    ],
)  # fmt: skip
def test_several_values(of: Formula, text: str, values: list[float]) -> None:
    """A comma between two digits is a decimal sign where it can be one; every other comma, and a semicolon, parts values."""
    ((found,),) = [ask(of, [(of.inputs[0].name, text)]).arguments]
    assert values == found


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["dischage"], "there is no calculation `dischage`; did you mean discharge?"),
        (["zzz"], "there is no calculation `zzz`; `bayleaf compute` lists them all"),
        (
            ["discharge", "47kohm"],
            "`47kohm` has no name before it; write R=47kohm, for instance (discharge takes R, C, from and to)",
        ),
    ],
)
def test_a_name_that_is_none(words: list[str], told: str) -> None:
    """The nearest is named."""
    with pytest.raises(Refused) as refused:
        find_formula(words)
    assert told == str(refused.value)


def test_a_name_is_typed_with_blanks_or_hyphens() -> None:
    """In any case of letters."""
    assert find_formula(["voltage", "left"]) is find_formula(["Voltage-Left"]) is formula_named("voltage left")


def test_a_value_may_come_as_two_words() -> None:
    """As a shell parts what stands without quotation marks."""
    assert (["discharge"], [("R", "47 kohm"), ("C", "1 mF")]) == split_call(["discharge", "R=47", "kohm", "C=1", "mF"])


GOOD = [("R", "47kohm"), ("C", "1.1mF"), ("from", "410V")]


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ([("r", "1Ω")], "discharge takes R, C, from and to, but no `r`; did you mean R?"),
        ([("volume", "1L")], "discharge takes R, C, from and to, but no `volume`"),
        (GOOD[:2], 'discharge needs from (Voltage at the start); write "from=410 V"'),
        ([*GOOD, ("R", "1Ω")], "R is given twice, as `47kohm` and as `1Ω`; leave one out"),
        ([("R", ""), *GOOD[1:]], 'R has no value; write "R=47 kΩ"'),
        ([("R", "47"), *GOOD[1:]], "R: `47` has no unit; write the unit after it, such as `47 Ω` or `47 kΩ`"),
        ([("R", "47V"), *GOOD[1:]], "R: `47V` is a voltage, but a resistance is expected; write a resistance, such as `12 Ω`"),
        ([("R", "47 mohm"), *GOOD[1:]],
         "R: `47 mohm` can mean milliohm or megohm; write `47 mOhm` for a milliohm or `47 MOhm` for a megohm"),
    ],
)  # fmt: skip
def test_what_is_given_wrongly(given: list[tuple[str, str]], told: str) -> None:
    """One sentence: what, why, and what to write."""
    with pytest.raises(Refused) as refused:
        ask(formula("discharge"), given)
    assert told == str(refused.value)


@pytest.mark.parametrize(
    ("of", "given", "told"),
    [
        ("stored-energy", [("C", "1 mF"), ("at", "1,234V")], "can be read in two ways"),
        ("acceptance-limits", [("low", "3 V"), ("high", "4"), ("U", "1")], "low has no unit; write low=3"),
        ("acceptance-limits", [("low", "x"), ("high", "4"), ("U", "1")], "`x` does not begin with a number"),
        ("insulation-limit", [("U", "400 V"), ("bus", "dcc")], "`dcc` is none of the choices; did you mean dc?"),
        ("insulation-limit", [("U", "400 V"), ("bus", "xyzxyz")], "write one of: dc; ac; joined"),
        ("average", [("of", "1,2")], "`1,2` can be one number or two; write `1.2` or `1; 2`"),
    ],
)
def test_numbers_and_choices_given_wrongly(of: str, given: list[tuple[str, str]], told: str) -> None:
    """In the same way for every formula."""
    with pytest.raises(Refused) as refused:
        ask(formula(of), given)
    assert told in str(refused.value)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ([("R", "0ohm"), *GOOD[1:]], "discharge cannot be computed: resistance is 0.0; it has to be above 0"),
        ([*GOOD[:2], ("from", "410V"), ("to", "-1V")], None),
    ],
)
def test_what_the_formula_refuses(given: list[tuple[str, str]], told: str | None) -> None:
    """In its own words; an end that is never reached is no refusal."""
    asked = ask(formula("discharge"), given)
    if told is None:
        assert "endless" == compute(asked)[0].text
        assert [] == curve_points(asked)
        return
    with pytest.raises(Refused) as refused:
        compute(asked)
    assert told == str(refused.value)


def _beyond(kind: float) -> tuple[float]:
    return ((1 / kind if kind < 1 else 10.0**kind if kind < 500 else (-kind) ** 0.5),)  # type: ignore[return-value]


@pytest.mark.parametrize("kind", ["0", "400", "600"])
def test_what_leads_out_of_numbers_is_refused(kind: str) -> None:
    """A division by zero, a number beyond all measure, the root of a negative number: one sentence, no traceback."""
    beyond = Formula("beyond", "Beyond", (Input("n", "Number"),), (Output("Result"),), _beyond, "", "", "", {"n": "1"})
    with pytest.raises(Refused, match="beyond cannot be computed: these values lead to a division by zero"):
        compute(ask(beyond, [("n", kind)]))


def test_a_plain_number_is_exact() -> None:
    """Until the function takes it."""
    found = ask(formula("acceptance-limits"), [("low", "0,1"), ("high", "1/2"), ("U", "0.01")])
    assert (Fraction(1, 10),) == found.inputs[0].values
    assert (Fraction(1, 2),) == found.inputs[1].values


def test_every_family_has_a_title_from_its_docstring() -> None:
    """Short enough for a heading, and no two alike."""
    titles = [one.title for one in families()]
    assert sorted(set(titles)) == sorted(titles)
    assert all(title and len(title) < 120 and not title.endswith((".", ":")) for title in titles)
    assert "Capacitors" == family_of(formula("discharge")).title
    assert len(all_formulas()) == sum(len(one.formulas) for one in families())
