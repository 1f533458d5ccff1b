"""How a page says what is done to an isolation point."""

import pytest
from bayleaf.pages.naming import Naming, the
from demo_kit import demo


@pytest.mark.parametrize(
    ("closing", "said"),
    [
        (False, "Put on the pinch clamp on the inlet hose"),
        (True, "Take off the pinch clamp on the inlet hose"),
    ],
)
def test_a_clamp_on_a_hose_is_put_on_to_stop_the_flow(closing: bool, said: str) -> None:
    """The other way round than a clamp on a post: whoever took it off would let the coolant run."""
    manual = demo()
    naming = Naming(manual.vehicles["granbrook-t8"], manual.workshop)

    assert naming.operate(("inlet-pinch",), closing).startswith(said)


def test_only_the_first_of_several_names_may_begin_a_sentence() -> None:
    """A plug keeps its number, and an abbreviation its letters."""
    manual = demo()
    naming = Naming(manual.vehicles["granbrook-t8"], manual.workshop)

    assert "Left air spring and right air spring" == naming.words(("air-spring-left", "air-spring-right"))
    assert naming.words(("left-pack", "X34")).startswith("Left battery pack and X34 Plug of")
    assert "Chocks at the rear wheels, 24 V supply behind the main switch and DC link of the auxiliary inverter" == (
        naming.words(("wheel-chocks", "supply-24", "auxiliary-link"))
    )


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Both end pieces", "both end pieces"),
        ("End pieces", "the end pieces"),
        ("X50 Plug of the sensor", "X50 Plug of the sensor"),
        ("DC link", "the DC link"),
    ],
)
def test_a_name_within_a_sentence_has_an_article_where_one_fits(name: str, said: str) -> None:
    """ "Remove the both end pieces" is no English."""
    assert said == the(name)
