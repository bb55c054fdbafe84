"""Errors: where they happened and what to do about it."""

import pytest

from service.paving.errors import OutOfRange, UnknownName, refuse_unknown, within


def test_the_place_of_an_error_is_told_from_the_outside_in() -> None:
    with pytest.raises(OutOfRange) as refusal, within("build_up"), within("layers", 2):
        raise OutOfRange("Too deep.", "depth")
    assert refusal.value.place == ("build_up", "layers", 2, "depth")
    assert (refusal.value.detail, str(refusal.value)) == ("Too deep.", "Too deep.")


def test_other_errors_pass_through_untouched() -> None:
    with pytest.raises(ZeroDivisionError), within("depth"):
        _ = 1 / 0


def test_nothing_happens_when_nothing_is_wrong() -> None:
    with within("depth"):
        pass


def test_an_unknown_name_is_refused_with_those_that_look_like_it() -> None:
    with pytest.raises(UnknownName) as refusal:
        refuse_unknown("pattern", "stack_bonds", ["stretcher_bond", "stack_bond", "pinwheel"], "pattern")
    assert refusal.value.detail.startswith("No pattern is called 'stack_bonds'; the nearest are stack_bond")
    assert refusal.value.place == ("pattern",)


def test_a_name_like_none_is_offered_the_first_five_of_the_list() -> None:
    with pytest.raises(UnknownName, match="there are a, b, c, d, e and others\\."):
        refuse_unknown("letter", "zzzz", "hgfedcba")


def test_one_name_that_looks_like_it_is_named_alone() -> None:
    with pytest.raises(UnknownName, match="the nearest is gravel\\."):
        refuse_unknown("material", "gravle", ["gravel", "sand"])
