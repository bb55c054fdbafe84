"""Reference data: every default has a range, a unit, a basis and, if published, a source that exists."""

import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

import service
from service.paving.cautions import caution
from service.paving.handling import slab_materials
from service.paving.materials import materials
from service.paving.reference import Assumption, assumption, cited, default, sources, table

UNITS = {"1", "m", "m2", "m3", "kg", "kg/m3", "s", "m3/s", "kg/s", "m2/s", "m/s", "rad", "m/s2", "1/s", "degC"}
BASES = {"published", "common practice"}
FILES = sorted(entry.name for entry in files("service.paving.reference").iterdir() if entry.name.endswith(".toml"))
#: Works that no entry or caution rests on, cited by formulas or held against by the tests.
HELD_AGAINST = {"cpwd_dsr_2018", "fm_5_428", "hse_cis57"}


def entries(tree: dict[str, Any], path: str) -> list[tuple[str, dict[str, Any]]]:
    """Every entry with a value, however deep."""
    if "value" in tree:
        return [(path, tree)]
    return [found for key, node in tree.items() if isinstance(node, dict) for found in entries(node, f"{path}.{key}")]


ENTRIES = [entry for file in FILES for entry in entries(table(file.removesuffix(".toml")), file.removesuffix(".toml"))]
each_entry = pytest.mark.parametrize(("path", "entry"), ENTRIES, ids=[path for path, _ in ENTRIES])


def flaws(entry: dict[str, Any]) -> list[str]:
    """What is wrong with an entry, as a list of sentences."""
    found = []
    if not entry["low"] <= entry["value"] <= entry["high"]:
        found.append("the value lies outside its range")
    if entry["unit"] not in UNITS:
        found.append("the unit isn't known")
    if entry["basis"] not in BASES:
        found.append("the basis isn't known")
    if (entry["basis"] == "published") != ("source" in entry):
        found.append("a source is given if and only if the value is published")
    if entry.get("source", "nhbc_10_2_6") not in sources():
        found.append("the source isn't in the bibliography")
    if extra := set(entry) - {"value", "low", "high", "unit", "basis", "source", "note"}:
        found.append(f"{extra} isn't read by anyone")
    return found


def test_the_tables_hold_many_entries() -> None:
    assert len(ENTRIES) >= 80


@each_entry
def test_an_entry_has_a_range_a_known_unit_a_basis_and_its_source(path: str, entry: dict[str, Any]) -> None:
    assert flaws(entry) == []


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"value": 3.0}, "outside its range"),
        ({"unit": "furlong"}, "unit"),
        ({"basis": "hearsay"}, "basis"),
        ({"basis": "published"}, "if and only if"),
        ({"source": "nhbc_10_2_6"}, "if and only if"),
        ({"basis": "published", "source": "no_such_book"}, "bibliography"),
        ({"colour": "red"}, "colour"),
    ],
)
def test_a_flawed_entry_is_caught(change: dict[str, Any], sentence: str) -> None:
    sound = {"value": 1.0, "low": 0.5, "high": 2.0, "unit": "m", "basis": "common practice"}
    assert flaws(sound) == []
    assert any(sentence in flaw for flaw in flaws(sound | change))


@pytest.mark.parametrize("file", FILES)
def test_a_table_repeats_no_key(file: str) -> None:
    # A TOML file with a repeated key doesn't load at all; nothing else makes sure of it.
    text = files("service.paving.reference").joinpath(file).read_text("utf-8")
    assert tomllib.loads(text)


def test_a_repeated_key_stops_a_table_from_loading() -> None:
    with pytest.raises(tomllib.TOMLDecodeError):
        tomllib.loads("[a]\nvalue = 1\n[a]\nvalue = 2\n")


def used_sources() -> set[str]:
    cited_by_cautions = {entry["source"] for entry in table("cautions").values()} - {""}
    return {entry["source"] for _, entry in ENTRIES if "source" in entry} | cited_by_cautions


def test_every_source_is_used_or_says_what_it_is_held_against() -> None:
    assert used_sources() <= set(sources())
    unused = set(sources()) - used_sources()
    assert {key for key in unused if not sources()[key].note} == set()
    assert unused >= HELD_AGAINST


def test_a_source_can_be_cited() -> None:
    for key, source in sources().items():
        assert source.title
        assert source.title in cited(key)
        assert ", ," not in cited(key)
    assert cited("nhbc_10_2_6") == "NHBC, NHBC Standards, 2021, 10.2.6"
    assert cited("") == ""


def test_every_caution_says_what_to_do_in_a_whole_sentence() -> None:
    for code, entry in table("cautions").items():
        raised = caution(code, "It applies here.")
        assert raised.code == code
        assert raised.text[0].isupper()
        assert raised.text.endswith(".")
        assert raised.source == cited(entry["source"])


def test_a_default_is_read_with_its_source_spelled_out() -> None:
    assert default("layers", "greatest_lift") == Assumption(
        "greatest_lift", 0.225, "m", 0.15, 0.225, "published", "NHBC, NHBC Standards, 2021, 10.2.6"
    )


def test_a_given_value_takes_the_place_of_a_default_with_its_range_and_source() -> None:
    usual = default("layers", "greatest_lift")
    assert usual.given(None) is usual
    assert usual.given(0.1) == Assumption("greatest_lift", 0.1, "m", 0.1, 0.1, "given", "")


def test_an_assumption_of_common_practice_claims_no_source() -> None:
    entry = {"value": 1, "low": 0, "high": 2, "unit": "1", "basis": "common practice"}
    assert assumption("share", entry) == Assumption("share", 1.0, "1", 0.0, 2.0, "common practice", "")


def test_a_bound_of_the_service_has_its_least_below_its_most() -> None:
    for name, bound in table("limits").items():
        assert bound["least"] < bound["most"], name
        assert bound["of"], name


def test_a_default_of_the_trade_lies_within_the_bounds_of_the_service() -> None:
    bounds = table("limits")
    for file, names in {"layers": ("layer_depth",), "beds": ("bed_depth",)}.items():
        for name in names:
            assert bounds[name]["least"] <= default(file, name).value <= bounds[name]["most"]


#: Endings that the code puts to a name, or before which it puts a key.
ENDINGS = ("_plastic", "_semi_dry", "_slab_density", "_joint_width")
KEYS = {*slab_materials(), *(material.key for material in materials())}
#: Tables whose entries the code reads one by one, by name.
READ_BY_NAME = {"layers", "beds", "joints", "mixes", "handling"}


def test_no_default_lies_idle() -> None:
    code = " ".join(path.read_text("utf-8") for path in Path(service.__file__).parent.rglob("*.py"))
    names = [path.partition(".")[2] for path, _ in ENTRIES if path.partition(".")[0] in READ_BY_NAME]
    assert len(names) >= 40
    for name in names:
        stem = next((name.removesuffix(ending) for ending in ENDINGS if name.endswith(ending)), name)
        assert stem in KEYS or f'"{name}"' in code or f'"{stem}"' in code, name
