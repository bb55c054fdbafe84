"""What can't be laid at random is refused with the reason and the smallest change that would do."""

import pytest

from service.paving.areas import area, rectangle
from service.paving.errors import OutOfRange
from service.paving.laying.mixed.amounts import by_packs
from service.paving.layouts import Detail, Layout, Pattern, Paving, layout
from service.paving.slabs import Slab
from tests.paving.laying.random.mixes import JOINT, side, slab


def lay(
    slabs: tuple[Slab, ...],
    modules: tuple[int, int] = (12, 10),
    joint: float = JOINT,
    limit: int = 6,
    pack: tuple[int, ...] | None = None,
) -> Layout:
    paving = Paving(
        slabs=slabs, pattern=Pattern.mixed_random, joint=joint, run_limit=limit, pack=pack, detail=Detail.counts
    )
    return layout(area(rectangle(side(modules[0]), side(modules[1]))), paving)


def mm(*sizes: tuple[int, int]) -> tuple[Slab, ...]:
    return tuple(Slab(f"{a} x {b}", a / 1000, b / 1000, 0.04) for a, b in sizes)


def test_sizes_that_are_not_on_one_module_are_refused_with_the_joint_that_would_do() -> None:
    with pytest.raises(OutOfRange, match="They are with a joint of 10 mm") as caught:
        lay(mm((590, 590), (590, 290), (290, 290)), joint=0.008)
    assert caught.value.place == ("slabs",)


def test_sizes_no_joint_brings_onto_one_module_are_refused_with_the_sides_that_would_do() -> None:
    with pytest.raises(OutOfRange, match="On a module of 300 mm, 617 mm would be 590 mm"):
        lay(mm((590, 590), (617, 290), (290, 290)))


def test_shares_that_do_not_make_up_the_area_are_refused_with_what_is_missing() -> None:
    with pytest.raises(OutOfRange, match="make up 90% of the area: add 10%"):
        lay((slab(2, 2, 0.6), slab(2, 1, 0.3)))


def test_a_share_for_some_sizes_only_is_refused() -> None:
    with pytest.raises(OutOfRange, match="every size, or for none") as caught:
        lay((slab(2, 2, 0.6), slab(2, 1)))
    assert caught.value.place == ("slabs", 1, "share")


def test_a_run_limit_shorter_than_a_slab_is_refused_with_the_least_there_can_be() -> None:
    with pytest.raises(OutOfRange, match="3 at least") as caught:
        lay((slab(3, 2), slab(2, 2), slab(2, 1), slab(1, 1)), limit=2)
    assert caught.value.place == ("run_limit",)


def test_more_single_modules_than_can_lie_without_crossed_joints_are_refused_with_the_share_that_can() -> None:
    with pytest.raises(OutOfRange, match=r"more than .* never can here") as caught:
        lay((slab(2, 2, 0.3), slab(1, 1, 0.7)), (20, 20))
    assert caught.value.place == ("slabs", 1, "share")


def test_sizes_too_even_for_the_area_are_refused_with_the_slab_that_is_missing() -> None:
    with pytest.raises(OutOfRange, match=r"multiple of 2\. Add a slab of one module, or change the area by 1 module"):
        lay((slab(2, 2), slab(2, 1)), (9, 7))


def test_a_pack_without_the_small_size_the_area_needs_is_refused() -> None:
    with pytest.raises(OutOfRange, match="Add a slab of one module") as caught:
        lay((slab(2, 2), slab(2, 1), slab(1, 1)), (9, 7), pack=(4, 4, 0))
    assert caught.value.place == ("pack",)


@pytest.mark.parametrize("pack", [(1,), (0, 0), (-1, 2)])
def test_a_pack_is_a_number_of_each_size(pack: tuple[int, ...]) -> None:
    with pytest.raises(OutOfRange, match="one slab at least"):
        lay((slab(2, 2), slab(2, 1)), pack=pack)


def test_one_size_alone_is_not_a_mix() -> None:
    with pytest.raises(OutOfRange, match="two sizes or more"):
        lay((slab(2, 1),))


def test_a_size_given_twice_is_refused() -> None:
    with pytest.raises(OutOfRange, match="as many modules as"):
        lay((slab(2, 1), slab(1, 2)))


def test_an_area_of_too_many_modules_is_refused() -> None:
    with pytest.raises(OutOfRange, match="more than are laid in one mix"):
        lay((slab(2, 2), slab(1, 1)), (300, 300))


USUAL = tuple(slab(*size) for size in ((3, 2), (2, 2), (2, 1), (1, 1)))


@pytest.mark.parametrize("modules", [(12, 10), (20, 20), (17, 13)])
def test_whole_packs_hold_what_is_laid_and_fewer_would_not(modules: tuple[int, int]) -> None:
    pack = (8, 11, 18, 16)
    found = lay(USUAL, modules, pack=pack)
    laid = [count.whole for count in found.by_slab]
    assert found.packs == -(-modules[0] * modules[1] // 144)
    assert [count.left_over for count in found.by_slab] == [
        found.packs * held - n for held, n in zip(pack, laid, strict=True)
    ]
    assert min(count.left_over for count in found.by_slab) >= 0


def test_packs_are_counted_for_courses_too() -> None:
    slabs = tuple(Slab(str(n), n / 1000, 0.3, 0.04) for n in (300, 450, 600))
    found = layout(area(rectangle(6.0, 3.0)), Paving(slabs=slabs, pattern=Pattern.coursed_random, pack=(6, 8, 10)))
    assert found.packs is not None
    for count, held in zip(found.by_slab, (6, 8, 10), strict=True):
        assert count.to_buy + count.left_over == found.packs * held
    assert any(count.left_over < held for count, held in zip(found.by_slab, (6, 8, 10), strict=True))


@pytest.mark.parametrize("modules", range(24, 60, 5))
def test_packs_are_the_fewest_that_any_numbers_allow(modules: int) -> None:
    """All numbers within the packs are tried, none fewer packs may cover the area."""
    sizes, pack = ((3, 2), (2, 2), (1, 1)), (1, 2, 3)
    found = by_packs(modules, sizes, pack)
    assert found is not None
    for packs in range(found.packs or 0):
        assert not any(
            6 * a + 4 * b + c == modules
            for a in range(packs + 1)
            for b in range(2 * packs + 1)
            for c in range(3 * packs + 1)
        )
