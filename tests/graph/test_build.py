"""From the steps of a file to the graph."""

import json

import pytest
from bayleaf.graph.build import build_graph, graph_of_variant
from bayleaf.graph.graph import End, Graph, Stop
from bayleaf.graph.variants import NO_VARIANT, variants_of
from bayleaf.loading.load import load
from bayleaf.model.facts import facts_of
from bayleaf.model.procedure import Procedure
from bayleaf.model.vehicle import Variant, Vehicle
from hypothesis import example, given
from hypothesis import strategies as st
from kit import PLACES, PROCEDURE, completed

CALLEE = """\
id: test-van/callee
conclusions:
  failed: {finding: It failed., end: stop}
  given-up: {finding: It was given up.}
steps:
  - ask: Done?
    answers:
      - {answer: yes, then: end}
      - {answer: no, then: failed}
      - {answer: perhaps, then: given-up}
"""


def procedure(text: str) -> Procedure:
    """A procedure of the small manual with these blocks."""
    return load(PLACES["procedure"], completed(text, PROCEDURE).encode(), "procedure").model


def graph(text: str, variant: str | None = None) -> Graph:
    """Its graph, where `test-van/callee` can be performed."""
    made = build_graph(procedure(text), {"test-van/callee": facts_of(procedure(CALLEE))})
    return made if variant is None else graph_of_variant(made, variant)


def edges(made: Graph) -> list[tuple[int, str, object]]:
    """The edges without their effects and places."""
    return [(edge.source, edge.exit, edge.target) for edge in made.edges]


def test_steps_follow_one_another_and_the_last_one_ends() -> None:
    """`next` at the last step is the end."""
    made = graph("steps:\n  - do: One.\n  - do: Two.\n")

    assert [(0, "next", 1), (1, "next", End(None))] == edges(made)
    assert made.is_whole


def test_a_question_has_one_edge_an_answer() -> None:
    """Targets are steps, conclusions and the three reserved words."""
    made = graph("""\
conclusions:
  bad: {finding: It is bad., end: stop}
  good: {finding: It is good.}
steps:
  - ask: Which?
    answers:
      - {answer: a, then: next}
      - {answer: b, then: stop}
      - {answer: c, then: end}
      - {answer: d, then: bad}
      - {answer: e, then: good}
      - {answer: f, then: last}
  - do: One.
  - id: last
    do: Two.
""")

    expected = [("a", 1), ("b", Stop(None)), ("c", End(None)), ("d", Stop("bad")), ("e", End("good")), ("f", 2)]
    assert expected == [(edge.exit, edge.target) for edge in made.leaving[0]]


def test_a_performed_procedure_comes_back_by_its_end_and_by_each_conclusion_that_returns() -> None:
    """One that stops never comes back, and has no edge."""
    made = graph("steps:\n  - perform: test-van/callee\n    outcomes: {given-up: stop}\n  - do: Two.\n")

    assert [(0, "end", 1), (0, "given-up", Stop(None)), (1, "next", End(None))] == edges(made)


@pytest.mark.parametrize(
    "steps",
    [
        "  - do: One.\n    then: nowhere\n",
        "  - ask: Dry?\n    answers:\n      - {answer: yes, then: next}\n      - {answer: no}\n",
        "  - perform: test-van/callee\n",
    ],
    ids=["no such target", "answer without target", "conclusion without target"],
)
def test_a_graph_with_a_missing_way_out_is_not_whole(steps: str) -> None:
    """What follows from it would be a second error for the same mistake."""
    assert not graph(f"steps:\n{steps}").is_whole


def test_a_variant_passes_over_what_is_only_for_others() -> None:
    """What leads to a step that is passed over leads to the one behind it."""
    text = """\
steps:
  - do: One.
    then: special
  - do: Never.
  - id: special
    do: Two.
    only_for: long
  - do: Three.
"""

    assert [(0, "next", 2), (1, "next", 2), (2, "next", 3), (3, "next", End(None))] == edges(graph(text, "long"))
    assert [(0, "next", 2), (1, "next", 2), (2, "next", End(None))] == edges(graph(text, "short"))


def test_a_jump_to_a_last_step_that_is_passed_over_is_the_end() -> None:
    """There is nothing behind it."""
    text = "steps:\n  - do: One.\n    then: special\n  - id: special\n    do: Two.\n    only_for: long\n"

    assert [(0, "next", End(None))] == edges(graph(text, "short"))


@pytest.mark.parametrize(
    ("profile", "applies", "only_for", "expected"),
    [
        (("long",), (), None, (None,)),
        (("long",), (), "long", ("long", NO_VARIANT)),
        (("long", "short"), (), "long", ("long", "short")),
        (("long", "short", "high"), ("long", "high"), "long", ("long", "high")),
        (("long",), (), "longer", ("long", NO_VARIANT, "longer")),
        ((), (), "long", (NO_VARIANT, "long")),
    ],
)
def test_variants_that_occur(profile, applies, only_for, expected) -> None:
    """One variant is told from the vehicles without it; several are a complete list."""
    text = "steps:\n  - do: One.\n" + (f"    only_for: {only_for}\n" if only_for else "")
    if applies:
        text = f"applies: {{variants: [{', '.join(applies)}]}}\n{text}"
    variants = {name: Variant(("variants", name), name, name, None, None) for name in profile}

    assert expected == variants_of(procedure(text), Vehicle("v.yml", "v", "V", variants=variants))


def test_what_always_comes_back_by_a_conclusion_has_no_plain_end() -> None:
    """So there is no way on without one."""
    ask = "steps:\n  - ask: Done?\n    answers: [{answer: a, then: good}, {answer: b, then: bad}]\n"
    ends = "conclusions:\n  good: {finding: Good.}\n  bad: {finding: Bad., end: stop}\n"
    always = facts_of(procedure(ends + ask))
    caller = procedure("steps:\n  - perform: test-van/callee\n    outcomes: {good: next}\n")

    assert ("good",) == always.comes_back
    assert [(0, "good", End(None))] == edges(build_graph(caller, {"test-van/callee": always}))


GROUP = """\
steps:
  - do: Look.
  - for_each: [X7, X8]
    steps:
      - id: leak
        measure: Insulation of each plug, each/1 device to chassis
        quantity: insulation resistance
        between: [each/1 device, chassis]
        outcomes: {within: next}
      - do: Look at each/1 device of each plug.
        on: [each, each/1 cable]
        then: leak
  - do: Look again.
"""


def test_a_group_is_unfolded_once_for_each_place() -> None:
    """Numbers count through, ids carry the place, and every step keeps the path of the line it was written in."""
    steps = procedure(GROUP).steps

    assert ["1", "2.1", "2.2", "2.3", "2.4", "3"] == [step.number for step in steps]
    assert [None, "leak@X7", None, "leak@X8", None, None] == [step.id for step in steps]
    assert [None, "X7", "X7", "X8", "X8", None] == [step.group for step in steps]
    assert [False, True, False, True, False, False] == [step.starts_group for step in steps]
    assert [("steps", 1, "steps", 0)] * 2 == [steps[1].at, steps[3].at]


def test_each_stands_for_the_place_where_it_is_a_name() -> None:
    """In words, `each` alone is an English word; in the name of what is measured it is the place."""
    steps = procedure(GROUP).steps

    assert ("X8/1 device", "chassis") == tuple(map(str, steps[3].action.pairs[0]))
    assert "Insulation of X8 plug, X8/1 device to chassis" == steps[3].action.what
    assert ("X8", "X8/1 cable") == steps[4].on
    assert "Look at X8/1 device of each plug." == steps[4].detail


def test_targets_within_a_group_lead_to_the_same_place() -> None:
    """`then: leak` at X8 comes back to the step at X8."""
    made = build_graph(procedure(GROUP), {})

    back = [(edge.source, edge.target) for edge in made.edges if edge.at and edge.at[-1] == "then"]
    assert [(2, 1), (4, 3)] == back


TARGETS = st.sampled_from(("next", "end", "stop", "s0", "s1", "s2", "good", "bad"))
_ANSWERS = st.lists(st.fixed_dictionaries({}, optional={"then": TARGETS}), min_size=2, max_size=3)
_MORE = st.fixed_dictionaries(
    {}, optional={"then": TARGETS, "only_for": st.just("long"), "repeat": st.just("at most 1"), "exhausted": TARGETS}
)
_OUTCOMES = st.dictionaries(st.sampled_from(("within", "above", "not_decided")), TARGETS)
_STEPS = st.one_of(
    st.builds(lambda more: {"do": "Look.", **more}, _MORE),
    st.builds(
        lambda found: {"ask": "What?", "answers": [{"answer": str(at), **one} for at, one in enumerate(found)]},
        _ANSWERS,
    ),
    st.builds(
        lambda more, written: {
            "measure": "The lamp",
            "quantity": "voltage",
            "limits": "at most 5 V",
            "outcomes": written,
            **more,
        },
        _MORE,
        _OUTCOMES,
    ),
    st.builds(
        lambda more, written: {"perform": "test-van/callee", "outcomes": written, **more},
        _MORE,
        st.dictionaries(st.sampled_from(("end", "given-up")), TARGETS),
    ),
)


@given(st.lists(_STEPS, min_size=1, max_size=3))
@example([{"do": "Look."}, {"do": "Look.", "then": "good", "only_for": "long"}])
def test_what_is_said_to_end_by_its_conclusions_alone_has_no_other_end(steps: list[dict[str, object]]) -> None:
    """Neither for all variants together nor for one of them."""
    conclusions = {"good": {"finding": "Good."}, "bad": {"finding": "Bad.", "end": "stop"}}
    named = [{"id": f"s{at}", **one} for at, one in enumerate(steps)]
    made = procedure(f"conclusions: {json.dumps(conclusions)}\nsteps: {json.dumps(named)}\n")
    whole = build_graph(made, {"test-van/callee": facts_of(procedure(CALLEE))})
    ends = [edge for one in (whole, graph_of_variant(whole, "short")) for edge in one.edges if edge.target == End(None)]

    assert facts_of(made).ends_plainly or ends == []
