"""What can't be laid at random is refused with the reason and the smallest change that would do."""

from dataclasses import replace

import pytest

from service.paving.areas import area, l_shape, polygon, rectangle
from service.paving.errors import OutOfRange
from service.paving.laying.mixed.amounts import by_packs
from service.paving.laying.mixed.mixes import MOST_STEPS
from service.paving.laying.mixed.tasks import Task
from service.paving.layouts import Detail, Layout, Pattern, Paving, layout
from service.paving.slabs import Slab
from tests.paving.laying.random.mixes import JOINT, MODULE, side, slab

USUAL = tuple(slab(*size) for size in ((3, 2), (2, 2), (2, 1), (1, 1)))


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


@pytest.mark.parametrize("limit", [2, 3, 4])
def test_a_run_limit_that_cannot_be_held_is_refused_with_one_that_can(limit: int) -> None:
    """Shorter than a slab, or than any laying found."""
    with pytest.raises(OutOfRange, match="Allow straight joints of 5 modules") as caught:
        lay(USUAL, (14, 14), limit=limit)
    assert caught.value.place == ("run_limit",)
    assert lay(USUAL, (14, 14), limit=5).slabs_cut == 0


def test_more_single_modules_than_can_lie_without_crossed_joints_are_refused_with_the_share_that_can() -> None:
    def sizes(percent: int) -> tuple[Slab, ...]:
        others = (1 - percent / 100) / 3
        return (slab(3, 2, others), slab(2, 2, others), slab(2, 1, others), slab(1, 1, percent / 100))

    with pytest.raises(OutOfRange, match="can't be laid without crossed joints") as caught:
        lay(sizes(70), (14, 14))
    assert caught.value.place == ("slabs", 3, "share")
    most = int(caught.value.detail.split("at most ")[1].split(" %")[0])
    assert lay(sizes(most), (14, 14)).slabs_cut == 0
    with pytest.raises(OutOfRange, match="can't be laid without crossed joints"):
        lay(sizes(most + 1), (14, 14))


def test_nothing_but_single_modules_is_refused_with_the_share_that_can_be() -> None:
    with pytest.raises(OutOfRange, match="can't be laid without crossed joints") as caught:
        lay((slab(2, 2, 0.0), slab(2, 1, 0.0), slab(1, 1, 1.0)))
    most = int(caught.value.detail.split("at most ")[1].split(" %")[0]) / 100
    assert lay((slab(2, 2, (1 - most) / 2), slab(2, 1, (1 - most) / 2), slab(1, 1, most))).slabs_cut == 0


def test_a_pack_with_too_many_single_modules_is_refused_with_how_many_can_be() -> None:
    with pytest.raises(OutOfRange, match="in a pack") as caught:
        lay(USUAL, (14, 14), pack=(2, 2, 2, 40))
    most = int(caught.value.detail.split("at most ")[1].split(" of ")[0])
    assert lay(USUAL, (14, 14), pack=(2, 2, 2, most)).slabs_cut == 0
    with pytest.raises(OutOfRange):
        lay(USUAL, (14, 14), pack=(2, 2, 2, most + 1))


def test_sizes_too_even_for_the_area_are_refused_with_the_slab_that_is_missing_and_the_nearest_area() -> None:
    even = (slab(3, 2), slab(2, 2), slab(2, 1))
    with pytest.raises(OutOfRange, match=r"multiple of 2\. Add 290 x 290 mm to the sizes; or make the area") as caught:
        lay(even, (9, 7))
    length, width = (
        float(part.split(" m")[0]) for part in caught.value.detail.split("make the area ")[1].split(" by ")
    )
    assert lay((*even, slab(1, 1)), (9, 7)).slabs_cut == 0
    assert lay(even, (round((length + JOINT) / MODULE), round((width + JOINT) / MODULE))).slabs_cut == 0


@pytest.mark.parametrize(("pack", "modules"), [((4, 4, 3, 0), (9, 7)), ((8, 11, 18, 0), (14, 14))])
def test_a_pack_without_the_small_size_a_mix_needs_is_refused_with_how_many_would_do(
    pack: tuple[int, ...], modules: tuple[int, int]
) -> None:
    with pytest.raises(OutOfRange, match="of 290 x 290 mm in each pack") as caught:
        lay(USUAL, modules, pack=pack, limit=5)
    assert caught.value.place == ("pack",)
    number = int(caught.value.detail.split("Have ")[1].split(" of ")[0])
    found = lay(USUAL, modules, pack=(*pack[:3], number), limit=5)
    assert min(count.left_over for count in found.by_slab) >= 0


def test_sizes_that_always_need_a_smaller_one_are_refused_with_it_and_with_longer_joints() -> None:
    even = (slab(3, 2), slab(2, 2), slab(2, 1))
    with pytest.raises(OutOfRange, match="Add 290 x 290 mm to the sizes; or allow straight joints of 6") as caught:
        lay(even, (14, 14), limit=5)
    assert caught.value.place == ("slabs",)
    assert lay(even, (14, 14), limit=6).slabs_cut == 0
    assert lay((*even, slab(1, 1)), (14, 14), limit=5).slabs_cut == 0


@pytest.mark.parametrize("sizes", [((2, 2), (1, 1)), ((3, 2), (2, 2)), ((3, 2), (1, 1))])
def test_sizes_that_need_another_between_them_are_refused_with_the_mix_that_would_do(
    sizes: tuple[tuple[int, int], ...],
) -> None:
    with pytest.raises(OutOfRange, match=r"Add .* in shares of") as caught:
        lay(tuple(slab(*size) for size in sizes), (20, 20), limit=5)
    shares = {}
    for part in caught.value.detail.split("in shares of ")[1].rstrip(".").split(", "):
        sides, percent = part.rsplit(" mm ", 1)
        length, width = (round((int(n) / 1000 + JOINT) / MODULE) for n in sides.split(" x "))
        shares[length, width] = int(percent.rstrip(" %")) / 100
    assert lay(tuple(slab(*size, share) for size, share in shares.items()), (20, 20), limit=5).slabs_cut == 0


def test_an_l_the_sizes_are_too_even_for_is_refused_with_the_slab_that_is_missing() -> None:
    shape = l_shape(side(9), side(8), 3 * MODULE, 3 * MODULE)
    paving = Paving(slabs=(slab(2, 2), slab(2, 1), slab(3, 2)), pattern=Pattern.mixed_random, joint=JOINT, run_limit=6)
    with pytest.raises(OutOfRange, match=r"63 modules: each covers a multiple of 2\. Add 290 x 290 mm to the sizes\."):
        layout(area(shape), paving)


def test_shares_that_need_a_smaller_size_are_refused_with_its_share() -> None:
    even = (slab(3, 2, 0.5), slab(2, 2, 0.3), slab(2, 1, 0.2))
    with pytest.raises(OutOfRange, match=r"Add 290 x 290 mm to the sizes for \d+% of the area") as caught:
        lay(even, (14, 14), limit=5)
    share = int(caught.value.detail.split("for ")[1].split("%")[0]) / 100
    sizes = ((3, 2, 0.5), (2, 2, 0.3), (2, 1, 0.2))
    mended = tuple(slab(a, b, part * (1 - share)) for a, b, part in sizes)
    assert lay((*mended, slab(1, 1, share)), (14, 14), limit=5).slabs_cut == 0


def test_a_pack_that_does_not_even_list_the_smaller_size_is_refused_with_how_many_would_do() -> None:
    with pytest.raises(OutOfRange, match=r"Have \d+ of 290 x 290 mm in each pack") as caught:
        lay(USUAL[:3], (14, 14), limit=5, pack=(8, 11, 18))
    number = int(caught.value.detail.split("Have ")[1].split(" of ")[0])
    assert lay(USUAL, (14, 14), limit=5, pack=(8, 11, 18, number)).packs


def test_sizes_that_no_small_change_helps_are_refused_with_that() -> None:
    with pytest.raises(OutOfRange, match="No small change"):
        lay((slab(5, 4), slab(4, 3), slab(1, 1)), (14, 14), limit=5)


def test_a_large_area_is_refused_with_a_change_that_would_do_as_well() -> None:
    with pytest.raises(OutOfRange, match="Allow straight joints of 5 modules"):
        lay(USUAL, (70, 60), limit=3)


def test_a_large_area_is_refused_with_the_mix_that_would_do() -> None:
    with pytest.raises(OutOfRange, match="in shares of 590 x 590 mm 58 %, 290 x 290 mm 10 %, 590 x 290 mm 32 %"):
        lay((slab(2, 2), slab(1, 1)), (100, 100), limit=5)
    assert lay((slab(2, 2, 0.58), slab(1, 1, 0.1), slab(2, 1, 0.32)), (100, 100), limit=5).slabs_cut == 0


def test_a_pack_that_needs_more_than_a_few_small_slabs_is_refused_with_another_area() -> None:
    with pytest.raises(OutOfRange, match=r"multiple of 4\. Make the area 2\.09 m by 2\.39 m") as caught:
        lay((slab(4, 4), slab(4, 3)), (7, 9), pack=(4, 4), limit=8)
    assert "add" not in caught.value.detail
    assert lay((slab(4, 4), slab(4, 3)), (7, 8), pack=(4, 4), limit=8).slabs_cut == 0


def test_a_strip_one_module_wide_is_refused_with_a_shorter_one() -> None:
    with pytest.raises(OutOfRange, match=r"make the area 0\.29 m by 2\.39 m"):
        lay((slab(2, 2), slab(2, 1)), (1, 9))


def test_no_other_area_is_named_where_none_nearby_can_be_covered() -> None:
    with pytest.raises(OutOfRange, match=r"multiple of 7\. No small change"):
        lay((slab(7, 7), slab(7, 6)), (2, 3), limit=8)


def test_joints_are_not_said_to_help_where_single_modules_stand_in_the_way_as_well() -> None:
    sizes = (slab(3, 2, 0.1), slab(2, 2, 0.1), slab(2, 1, 0.1), slab(1, 1, 0.7))
    with pytest.raises(OutOfRange, match=r"so is the joint along it\. No small change"):
        lay(sizes, (12, 10), limit=2)


def test_a_large_area_the_sizes_are_too_even_for_is_refused_with_changes_that_would_do() -> None:
    even = (slab(3, 2, 0.5), slab(2, 2, 0.3), slab(2, 1, 0.2))
    with pytest.raises(OutOfRange, match="allow straight joints of 6 modules") as caught:
        lay(even, (60, 61), limit=5)
    share = int(caught.value.detail.split("for ")[1].split("%")[0]) / 100
    mended = tuple(replace(size, share=(size.share or 0) * (1 - share)) for size in even)
    assert lay((*mended, slab(1, 1, share)), (60, 61), limit=5).slabs_cut == 0
    assert lay(even, (60, 61), limit=6).slabs_cut == 0


@pytest.mark.parametrize("sizes", [((3, 2), (2, 2), (2, 1)), ((7, 5), (5, 3), (3, 1)), ((2, 2), (1, 1))])
def test_a_laying_that_is_not_found_is_given_up_after_the_steps_it_may_take(sizes: tuple[tuple[int, int], ...]) -> None:
    """What one crop more or one window more takes may come on top; of 10,000 modules a crop takes below 30,000."""
    task = Task(100, 100, (True,) * 10_000, sizes, None, None, sizes[0][0] + 2, 1)
    assert task.fault is not None
    assert task.found.steps < MOST_STEPS + 30_000
    for most in (1, 20_000, 60_000):
        works, steps = task.tried(most)
        assert not works
        assert steps < most + 30_000


def test_a_task_that_is_seen_to_be_laid_is_laid_and_one_with_too_few_steps_is_not_seen_to_be() -> None:
    task = Task(60, 60, (True,) * 3600, ((3, 2), (2, 2), (2, 1)), None, None, 6, 1)
    works, steps = task.tried(MOST_STEPS)
    assert works
    assert task.fault is None
    assert not task.tried(steps - 1)[0]


def test_a_refusal_too_long_for_more_tries_names_no_other_area() -> None:
    """Rectangles as large that the sizes could cover are laid by no small number of steps."""
    with pytest.raises(OutOfRange, match=r"multiple of 2\. Add 290 x 290 mm to the sizes\.$"):
        lay((slab(3, 2), slab(2, 2), slab(2, 1)), (101, 99), limit=5)


def test_an_area_to_be_cut_is_laid_over_by_a_row_more_where_the_sizes_are_too_even_for_it() -> None:
    paving = Paving(slabs=(slab(2, 2), slab(2, 1), slab(3, 2)), pattern=Pattern.mixed_random, joint=JOINT, run_limit=6)
    shape = area(rectangle(side(15) - 0.1, side(13)))
    found = layout(shape, paving)
    assert found.slabs_cut > 0
    assert found.paved_area + found.joint_area == pytest.approx(shape.net, abs=1e-6)


@pytest.mark.parametrize("pack", [(1,), (0, 0), (-1, 2)])
def test_a_pack_is_a_number_of_each_size(pack: tuple[int, ...]) -> None:
    with pytest.raises(OutOfRange, match="one slab at least"):
        lay((slab(2, 2), slab(2, 1)), pack=pack)


def test_a_pack_beside_shares_is_refused() -> None:
    with pytest.raises(OutOfRange, match="not both") as caught:
        lay((slab(2, 2, 0.5), slab(2, 1, 0.5)), pack=(2, 2))
    assert caught.value.place == ("pack",)


def test_one_size_alone_is_not_a_mix() -> None:
    with pytest.raises(OutOfRange, match="two sizes or more"):
        lay((slab(2, 1),))


def test_a_size_given_twice_is_refused() -> None:
    with pytest.raises(OutOfRange, match="as many modules as"):
        lay((slab(2, 1), slab(1, 2)))


def test_an_area_of_too_many_modules_is_refused() -> None:
    with pytest.raises(OutOfRange, match="more than are laid in one mix"):
        lay((slab(2, 2), slab(1, 1)), (300, 300))


@pytest.mark.parametrize("modules", [(12, 10), (14, 14), (17, 13)])
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


def test_an_area_thinner_than_anything_laid_is_refused() -> None:
    thread = area(polygon([(0, 0), (990, 0), (990, 0.0004), (0, 0.0004)], {}))
    # Setts of 50 and 25 with joints of 5 lie on a module of 5, no wider than the joint.
    for slabs, joint in ((USUAL, JOINT), (mm((50, 25), (25, 25)), 0.005)):
        paving = Paving(slabs=slabs, pattern=Pattern.mixed_random, joint=joint, detail=Detail.counts)
        with pytest.raises(OutOfRange, match="nothing is laid") as caught:
            layout(thread, paving)
        assert caught.value.place == ("area",)


def test_a_pack_is_refused_with_the_least_number_that_was_found_to_do() -> None:
    sizes = (slab(5, 3), slab(4, 4))
    with pytest.raises(OutOfRange, match="Have 2 of 290 x 290 mm in each pack"):
        lay(sizes, (5, 10), pack=(3, 0))
    with pytest.raises(OutOfRange):
        lay((*sizes, slab(1, 1)), (5, 10), pack=(3, 0, 1))
    assert lay((*sizes, slab(1, 1)), (5, 10), pack=(3, 0, 2)).slabs_cut == 0


def test_a_pack_that_nothing_near_would_mend_is_refused_with_that() -> None:
    """Four by four alone always meet corner to corner, on every area three modules round about."""
    with pytest.raises(OutOfRange, match=r"each covers a multiple of 16\. No small change") as caught:
        lay((slab(4, 4), slab(3, 3)), (9, 9), pack=(4, 0))
    assert caught.value.place == ("pack",)


def test_a_path_three_modules_wide_is_refused_with_the_nearest_area_that_can_be_laid() -> None:
    even = (slab(3, 2), slab(2, 2), slab(2, 1))
    with pytest.raises(OutOfRange, match=r"multiple of 2\.") as caught:
        lay(even, (3, 5))
    sides = caught.value.detail.split("make the area ")[1].split(" by ")
    length, width = (round((float(part.split(" m")[0]) + JOINT) / MODULE) for part in sides)
    assert abs(length - 3) + abs(width - 5) == 1
    assert lay(even, (length, width)).slabs_cut == 0
