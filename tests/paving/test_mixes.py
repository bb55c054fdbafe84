"""Mixes, held against measured mortars, published coefficients and complete worked examples."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.paving import gauging, mixer_loads
from service.paving.errors import BrokenIdentity, OutOfRange
from service.paving.mixes import (
    Consistence,
    Mix,
    MixBasis,
    Parts,
    SandState,
    given_water_cement_ratio,
    mix,
    mix_basis,
)
from service.paving.sheets import Sheet

POUND = 0.45359237
YARD = 0.9144**3
FOOT = 0.3048**3
BARREL = 380 * POUND  # of cement, as Sabin and Fuller count it


def mixed(
    parts: Parts,
    consistence: Consistence = Consistence.PLASTIC,
    sand: SandState = SandState.DRY,
    volume: float = 1.0,
    sheet: Sheet | None = None,
    **changed: object,
) -> Mix:
    basis = replace(mix_basis(consistence, sand), **changed)  # type: ignore[arg-type]
    return mix(sheet or Sheet(), volume, parts, consistence, sand, basis)


@pytest.mark.parametrize(
    ("sand", "sabin", "fuller"), [(2, 2.84, 3.09), (3, 2.06, 2.30), (4, 1.62, 1.80), (5, 1.33, 1.48), (6, 1.14, 1.23)]
)
def test_mortar_takes_cement_between_the_mortars_sabin_and_fuller_measured(
    sand: float, sabin: float, fuller: float
) -> None:
    """Gillette and Hill (1908): barrels of 380 lb to the cubic yard of mortar, 1:2 to 1:6."""
    found = mixed(Parts(1, sand)).cement_per_volume
    assert sabin * BARREL / YARD <= found <= fuller * BARREL / YARD


@pytest.mark.parametrize("consistence", list(Consistence))
@pytest.mark.parametrize(("sand", "coefficient"), [(2, 680), (3, 510), (4, 380), (5, 310), (6, 250)])
def test_mortar_takes_cement_within_12_percent_of_the_cpwd_coefficients(
    consistence: Consistence, sand: float, coefficient: float
) -> None:
    """CPWD Delhi Schedule of Rates 2018, kg/m3; the published sources disagree by up to 12 % among themselves."""
    assert mixed(Parts(1, sand), consistence).cement_per_volume == pytest.approx(coefficient, rel=0.12)


@pytest.mark.parametrize(("parts", "coefficient"), [(Parts(1, 2, 4), 320), (Parts(1, 3, 6), 220)])
def test_concrete_takes_cement_within_12_percent_of_the_cpwd_coefficients(parts: Parts, coefficient: float) -> None:
    """CPWD 2018: 320 kg/m3 for 1:2:4 (read), 220 for 1:3:6 (from memory)."""
    assert mixed(parts).cement_per_volume == pytest.approx(coefficient, rel=0.12)


def test_concrete_takes_sand_and_stone_within_12_percent_of_the_cpwd_analysis() -> None:
    """CPWD analysis of rates, 1:2:4: 0.445 m3 of sand and 0.89 m3 of stone to the cubic metre."""
    found = mixed(Parts(1, 2, 4))
    assert found.sand_volume == pytest.approx(0.445, rel=0.12)
    assert found.aggregate_volume == pytest.approx(0.89, rel=0.12)


def test_a_yard_of_navy_concrete_comes_out_as_the_manual_prints_it() -> None:
    """US Navy, Engineering Aid, chapter 17: 610 lb cement, 305 lb water, 1735 lb stone, 1153 lb sand, 5 % air.

    The manual goes from masses to volumes; put in as loose volumes (94, 100 and 102 lb/ft3) they must fill
    the yard they came from and weigh the same.
    """
    pcf = POUND / FOOT
    basis = mix_basis(Consistence.PLASTIC, SandState.DRY)
    found = mixed(
        Parts(610 / 94, 1153 / 100, 1735 / 102),
        volume=YARD,
        cement_bulk_density=basis.cement_bulk_density.given(94 * pcf),
        cement_particle_density=basis.cement_particle_density.given(3.15 * 62.4 * pcf),
        sand_bulk_density=basis.sand_bulk_density.given(100 * pcf),
        sand_particle_density=basis.sand_particle_density.given(2.65 * 62.4 * pcf),
        aggregate_bulk_density=basis.aggregate_bulk_density.given(102 * pcf),
        aggregate_particle_density=basis.aggregate_particle_density.given(2.60 * 62.4 * pcf),
        water_density=basis.water_density.given(62.4 * pcf),
        concrete_air=basis.concrete_air.given(0.05),
        water_cement_ratio=given_water_cement_ratio(0.50),
    )
    assert found.cement / POUND == pytest.approx(610, abs=0.5)
    assert found.sand_mass / POUND == pytest.approx(1153, abs=1)
    assert found.aggregate_mass / POUND == pytest.approx(1735, abs=1)
    assert found.water * 62.4 * pcf / POUND == pytest.approx(305, abs=0.5)


def test_a_1_to_3_mortar_at_half_water_to_cement_yields_2_9885_parts() -> None:
    """Absolute volumes (ACI 211 principle): 1440/3150 + 3 x 1600/2650 + 0.72 = 2.9885, no air."""
    basis = mix_basis(Consistence.PLASTIC, SandState.DRY)
    found = mixed(
        Parts(1, 3), mortar_air=basis.mortar_air.given(0.0), water_cement_ratio=given_water_cement_ratio(0.50)
    )
    assert 1440 / found.cement_per_volume == pytest.approx(2.9885, abs=0.001)


@pytest.mark.parametrize(("sand", "kilograms"), [(3, 530), (4, 424)])
def test_the_rule_of_thumb_with_38_cubic_feet_is_the_navy_builders_rule(sand: float, kilograms: float) -> None:
    """US Navy Builder, rule 38: 38 ft3 of dry materials to the yard of mortar, 94 lb of cement to the cubic foot."""
    found = gauging.rule_of_thumb(38 / 27, 1.0, 1.0, 1 + sand, 94 * POUND / FOOT)
    assert found == pytest.approx(kilograms, abs=1)


@pytest.mark.parametrize(("parts", "dry"), [(Parts(1, 4), 1.33), (Parts(1, 2, 4), 1.54)])
def test_the_rule_of_thumb_stands_beside_the_mix(parts: Parts, dry: float) -> None:
    """Common practice: 1.33 dry to wet for mortar, 1.54 for concrete."""
    found = mixed(parts, volume=2.0)
    assert found.rule_of_thumb_cement == pytest.approx(dry * 2 / parts.all * 1440)
    assert found.rule_of_thumb_cement == pytest.approx(found.cement, rel=0.06)


BASIS = mix_basis(Consistence.PLASTIC, SandState.DRY)
mixes_of_any_kind = st.builds(
    lambda cement, sand, stone, consistence, state: (Parts(cement, sand, stone), consistence, state),
    st.floats(0.5, 2),
    st.floats(1, 3),
    st.none() | st.floats(0.5, 3),
    st.sampled_from(Consistence),
    st.sampled_from(SandState),
)


@given(mixes_of_any_kind, st.floats(0.001, 100))
def test_cement_sand_stone_water_and_air_fill_the_volume(
    asked: tuple[Parts, Consistence, SandState], volume: float
) -> None:
    """Volumes of grains, water and air add up to the mix: nothing is lost and nothing is made."""
    parts, consistence, state = asked
    found = mixed(parts, consistence, state, volume)
    basis = mix_basis(consistence, state)
    moisture = basis.sand_moisture.value if state is SandState.DAMP else 0.0
    dry_sand = found.sand_mass / (1 + moisture)
    water = found.water + dry_sand * moisture / 1000
    grains = found.cement / 3150 + dry_sand / 2650 + found.aggregate_mass / 2650
    assert grains + water + basis.air_content(parts).value * volume == pytest.approx(volume)
    assert water == pytest.approx(found.water_in_mix)


@given(mixes_of_any_kind, st.floats(0.001, 100))
def test_the_parts_measured_out_stand_in_the_ratio_asked_for(
    asked: tuple[Parts, Consistence, SandState], volume: float
) -> None:
    parts, consistence, state = asked
    found = mixed(parts, consistence, state, volume)
    assert found.sand_volume / (found.cement / 1440) == pytest.approx(parts.sand / parts.cement)
    assert found.aggregate_volume / (found.cement / 1440) == pytest.approx((parts.aggregate or 0) / parts.cement)


@given(mixes_of_any_kind, st.floats(0.001, 10))
def test_batches_cover_the_mix_fit_the_mixer_and_hold_half_bags(
    asked: tuple[Parts, Consistence, SandState], volume: float
) -> None:
    found = mixed(*asked, volume=volume)
    assert (found.batches - 1) * found.batch_cement < found.cement * (1 + 1e-9)
    assert found.batches * found.batch_cement >= found.cement * (1 - 1e-9)
    assert found.batch_cement / found.cement_per_volume <= BASIS.mixer_output.value * (1 + 1e-9)
    halves = found.batch_cement / 12.5
    assert found.batches == 1 or halves == pytest.approx(round(halves))
    assert found.cement_bags == math.ceil(found.cement / 25 - 1e-9)


def test_parts_given_as_2_to_8_are_the_mix_1_to_4() -> None:
    assert mixed(Parts(2, 8)).cement == pytest.approx(mixed(Parts(1, 4)).cement)


def test_twice_the_volume_takes_twice_of_everything() -> None:
    one, two = mixed(Parts(1, 2, 4)), mixed(Parts(1, 2, 4), volume=2.0)
    for name in ("cement", "sand_volume", "sand_mass", "aggregate_volume", "aggregate_mass", "water"):
        assert getattr(two, name) == pytest.approx(2 * getattr(one, name))


def test_five_parts_of_sand_bulked_by_a_quarter_are_four_parts_dry() -> None:
    """IS 2386 and IS 456 practice (from memory): sand at 4 % moisture bulks by 25 %."""
    damp, dry = mixed(Parts(1, 5), sand=SandState.DAMP), mixed(Parts(1, 4))
    assert damp.cement == pytest.approx(dry.cement)
    assert damp.sand_volume == pytest.approx(1.25 * dry.sand_volume)
    assert damp.sand_mass == pytest.approx(1.04 * dry.sand_mass)
    assert damp.water == pytest.approx(dry.water - 0.04 * dry.sand_mass / 1000)


def test_a_semi_dry_mix_takes_less_water_than_a_plastic_one() -> None:
    assert mixed(Parts(1, 4), Consistence.SEMI_DRY).water < mixed(Parts(1, 4)).water


def test_a_given_water_cement_ratio_decides_the_water() -> None:
    sheet = Sheet()
    found = mixed(Parts(1, 2, 4), sheet=sheet, water_cement_ratio=given_water_cement_ratio(0.55))
    assert found.water * 1000 == pytest.approx(0.55 * found.cement)
    assert sheet.assumptions["water_cement_ratio"].basis == "given"
    assert not {"concrete_water_plastic", "mortar_water_plastic"} & set(sheet.assumptions)


def test_more_water_by_ratio_makes_the_cement_go_further() -> None:
    wet = mixed(Parts(1, 3), water_cement_ratio=given_water_cement_ratio(0.7))
    stiff = mixed(Parts(1, 3), water_cement_ratio=given_water_cement_ratio(0.4))
    assert wet.cement_per_volume < stiff.cement_per_volume


def test_the_rule_of_thumb_takes_2_to_8_for_1_to_4() -> None:
    assert mixed(Parts(2, 8)).rule_of_thumb_cement == pytest.approx(mixed(Parts(1, 4)).rule_of_thumb_cement)


@pytest.mark.parametrize("volume", [1e-6, 1e4])
def test_the_limits_of_a_volume_can_still_be_mixed(volume: float) -> None:
    assert mixed(Parts(1, 4), volume=volume).cement > 0


@pytest.mark.parametrize("parts", [Parts(1, 0.5), Parts(1, 12), Parts(1, 4, 8)])
def test_the_limits_of_the_parts_can_still_be_mixed(parts: Parts) -> None:
    assert mixed(parts).cement > 0


def test_485_kg_of_cement_are_20_bags() -> None:
    """Arithmetic: 485 / 25 = 19.4, rounded up."""
    assert mixer_loads.whole_bags(485.0, 25.0) == 20


def test_a_mixer_too_small_for_half_a_bag_is_gauged_by_what_it_holds() -> None:
    small = BASIS.mixer_output.given(0.02)
    found = mixed(Parts(1, 4), mixer_output=small)
    assert found.batches == 50
    assert found.batch_cement == pytest.approx(found.cement / 50)


def test_a_job_smaller_than_a_batch_is_one_batch_of_all_its_cement() -> None:
    found = mixed(Parts(1, 4), volume=0.01)
    assert (found.batches, found.batch_cement) == (1, found.cement)


def test_what_stiffens_before_it_is_placed_is_mixed_in_smaller_batches() -> None:
    slow = BASIS.placing_rate.given(0.05 / 5400)
    found = mixed(Parts(1, 4), placing_rate=slow)
    assert found.batch_cement / found.cement_per_volume <= 0.05


@pytest.mark.parametrize(
    ("parts", "volume", "place"),
    [
        (Parts(1, 4), 0.0, ("volume",)),
        (Parts(1, 4), 20000.0, ("volume",)),
        (Parts(0, 4), 1.0, ("parts",)),
        (Parts(1, 0), 1.0, ("parts",)),
        (Parts(1, 2, -1), 1.0, ("parts",)),
        (Parts(1, 13), 1.0, ("parts",)),
        (Parts(1, 0.4), 1.0, ("parts",)),
        (Parts(1, 6, 12), 1.0, ("parts",)),
    ],
)
def test_a_mix_no_one_makes_is_refused_with_its_place(parts: Parts, volume: float, place: tuple[str, ...]) -> None:
    with pytest.raises(OutOfRange) as refusal:
        mixed(parts, volume=volume)
    assert refusal.value.place == place


def test_sand_denser_loose_than_its_grains_is_refused() -> None:
    with pytest.raises(OutOfRange, match="below 2650 kg/m3") as refusal:
        mixed(Parts(1, 4), sand_bulk_density=BASIS.sand_bulk_density.given(2700.0))
    assert refusal.value.place == ("sand_bulk_density",)
    with pytest.raises(OutOfRange):
        mixed(Parts(1, 4), sand_bulk_density=BASIS.sand_bulk_density.given(2650.0))


def test_sand_that_brings_more_water_than_the_mix_takes_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"brings 217 l of water and the mix takes 130 l: use drier sand") as refusal:
        mixed(Parts(1, 6), Consistence.SEMI_DRY, SandState.DAMP, sand_moisture=BASIS.sand_moisture.given(0.12))
    assert refusal.value.place == ("sand",)


@pytest.mark.parametrize(
    "basis", [mix_basis(Consistence.SEMI_DRY, SandState.DRY), mix_basis(Consistence.PLASTIC, SandState.DAMP)]
)
def test_a_basis_made_for_another_mix_breaks_an_identity(basis: MixBasis) -> None:
    with pytest.raises(BrokenIdentity):
        mix(Sheet(), 1.0, Parts(1, 4), Consistence.PLASTIC, SandState.DRY, basis)


@pytest.mark.parametrize(
    ("parts", "code"),
    [
        (Parts(1, 6), None),
        (Parts(1, 2), None),
        (Parts(1, 7), "lean_mix"),
        (Parts(1, 1.5), "rich_mix"),
        (Parts(1, 2, 4), None),
        (Parts(1, 4, 8), "lean_mix"),
        (Parts(1, 1, 1), "rich_mix"),
    ],
)
def test_a_mix_leaner_or_richer_than_usual_is_cautioned(parts: Parts, code: str | None) -> None:
    sheet = Sheet()
    mixed(parts, sheet=sheet)
    assert set(sheet.cautions) - {"wet_cement", "cold", "bag_lifting"} == ({code} if code else set())


def test_the_cautions_name_the_kind_of_mix() -> None:
    sheet = Sheet()
    mixed(Parts(1, 4), Consistence.SEMI_DRY, sheet=sheet)
    assert sheet.cautions["wet_cement"].because == "Semi-dry mortar holds wet cement."


def test_every_figure_of_a_mix_has_its_workings() -> None:
    sheet = Sheet()
    found = mixed(Parts(1, 2, 4), sand=SandState.DAMP, sheet=sheet)
    worked = {step.figure: step.value for step in sheet.steps}
    names = set(Mix.__dataclass_fields__) - {"volume"}
    assert {name: worked[name] for name in names} == {name: getattr(found, name) for name in names}


def test_only_the_assumptions_a_mix_rests_on_are_named() -> None:
    sheet = Sheet()
    mixed(Parts(1, 4), sheet=sheet)
    assert not [name for name in sheet.assumptions if name.startswith(("aggregate", "concrete", "sand_moisture"))]
