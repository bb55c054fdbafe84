"""Which good is taken for a need."""

import pytest

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good, Pack
from service.paving.ordering.purchases import purchase

BAGS = Good("B", "Stone, bags", "type_1", "t", (Pack("bulk bag", 0.85, "B1", most=11),))
LOOSE = Good("L", "Stone, loose", "type_1", "t", (Pack("half tonne", 0.5, "L1", least=20, most=100),))


def test_the_first_good_that_can_be_sold_is_taken() -> None:
    assert purchase([(BAGS, 9.0), (LOOSE, 9.0)]).good is BAGS
    assert purchase([(LOOSE, 9.0), (BAGS, 9.0)]).good is LOOSE
    assert purchase([(BAGS, 9.4), (LOOSE, 9.4)]).good is LOOSE


def test_each_good_is_bought_in_its_own_quantity() -> None:
    found = purchase([(BAGS, 99.0), (LOOSE, 12.2)])
    assert (found.quantity, found.cover.bought) == (12.2, 12.5)


def test_when_no_good_can_be_sold_the_last_says_why() -> None:
    with pytest.raises(OutOfRange, match="hold 50 at most"):
        purchase([(BAGS, 60.0), (LOOSE, 60.0)])


def test_no_good_on_offer_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no good"):
        purchase([])
