"""How a page says what is done to an isolation point."""

import pytest
from bayleaf.pages.naming import Naming
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
