"""Faulty catalogues: every fault is named with its file, row and column, and nothing else is."""

from decimal import Decimal
from pathlib import Path

import pytest

from service.catalogue import FaultyCatalogue, faults, read
from service.paving.ordering.terms import Prices, Rounding, TaxedBy

SOUND = {
    "catalogue.csv": "setting,value\ntitle,Yard at the corner\ncurrency,EUR\nprices,with tax\nplaces,2\n"
    "tax_rounding,down\ntaxed_by,line\n",
    "taxes.csv": "code,name,percent\nFULL,Full rate,20\nLOW,Low rate,5.5\n",
    "goods.csv": "sku,name,item,unit,mass_kg,made_of,made_edges,tax,gtin,lead_days,substitutes,note\n"
    'FLAG,Flag 600 x 600,slab,each,,concrete,yes,FULL,4006381333931,0,FLAG2,"sold, mostly"\n'
    "FLAG2,Flag 600 x 600 rough,slab,each,32,,,FULL,,,,\n"
    "SAND,Sharp sand,sharp_sand,t,,,,LOW,,3,,\n"
    "FLEECE,Membrane,membrane,m2,0.2,,,,,,,\n"
    "MIX,Mixed pack,slab,m2,,sandstone,,,,,,\n",
    "slabs.csv": "good,name,length_mm,width_mm,thickness_mm,pieces\n"
    "FLAG,,600,600,38,\nFLAG2,,600,600,38,\nMIX,large,900,600,22,10\nMIX,small,600,300,22,20\n",
    "packs.csv": "good,name,content,sku,least,step,most,price,deposit,mass_kg,per_pallet,roll_length_m,roll_width_m\n"
    "FLAG,single,1,FLAG-1,,,,4.50,,,30,,\n"
    "FLAG,crate of 30,30,FLAG-C,,,,120.00,12.00,985,1,,\n"
    "FLAG2,single,1,,,,,4.20,,,30,,\n"
    "SAND,bulk bag,0.85,,,,,61.25,5,,1,,\n"
    "FLEECE,roll,45,,,,,31.5,,,20,10,4.5\n"
    "MIX,crate,9,,,,,,,,1,,\n",
    "vehicles.csv": "name,payload_kg,pallets,tips,lift_kg\nLorry,9000,10,no,1500\nTipper,20000,,yes,\n",
}


def written(folder: Path, changes: dict[str, str | bytes | None] | None = None) -> Path:
    """A catalogue's folder: the sound one with some files changed or left out."""
    for name, content in (SOUND | (changes or {})).items():
        if content is not None:
            (folder / name).write_bytes(content if isinstance(content, bytes) else content.encode())
    return folder


def found(folder: Path) -> list[tuple[str, int, str]]:
    return [(fault.file, fault.row, fault.column) for fault in faults(folder)]


def changed(file: str, old: str, new: str) -> dict[str, str | bytes | None]:
    assert SOUND[file].count(old) == 1, "the change must hit one place"
    return {file: SOUND[file].replace(old, new)}


def test_a_sound_catalogue_is_read_as_it_is_written(tmp_path: Path) -> None:
    goods = read(written(tmp_path))
    flag = goods.good("FLAG")
    assert flag.slab is not None
    assert (flag.slab.length, flag.slab.width, flag.slab.thickness) == (0.6, 0.6, 0.038)
    assert (flag.made_edges, flag.tax, flag.lead, flag.substitutes) == (True, "FULL", 0, ("FLAG2",))
    assert flag.mass == pytest.approx(0.6 * 0.6 * 0.038 * 2350)
    single, crate = flag.packs
    assert (crate.content, crate.price, crate.deposit, crate.mass) == (30, Decimal("120.00"), Decimal("12.00"), 985)
    assert (single.least, single.step, single.most) == (0, 1, None)
    assert goods.good("SAND").packs[0].sku == "SAND"
    roll = goods.good("FLEECE").packs[0]
    assert (roll.length, roll.width, roll.content) == (10, 4.5, 45)
    assert [slab.share for slab in goods.good("MIX").slabs] == pytest.approx([0.6, 0.4])
    assert goods.good("MIX").mass == pytest.approx(0.022 * 2450)


def test_the_terms_are_read_as_they_are_written(tmp_path: Path) -> None:
    terms = read(written(tmp_path)).terms
    assert (terms.title, terms.currency, terms.places) == ("Yard at the corner", "EUR", 2)
    assert (terms.prices, terms.rounding) == (Prices.WITH_TAX, Rounding.HALF_UP)
    assert (terms.tax_rounding, terms.taxed_by) == (Rounding.DOWN, TaxedBy.LINE)
    assert terms.taxes["LOW"].percent == Decimal("5.5")
    assert [(v.name, v.pallets, v.tips, v.lift) for v in terms.vehicles] == [
        ("Lorry", 10, False, 1500),
        ("Tipper", 0, True, None),
    ]


def test_goods_and_packs_alone_are_a_catalogue(tmp_path: Path) -> None:
    for name, content in {
        "goods.csv": "sku,name,item,unit\nSAND,Sharp sand,sharp_sand,t\n",
        "packs.csv": "good,name,content\nSAND,bulk bag,0.85\n",
    }.items():
        (tmp_path / name).write_text(content, "utf-8")
    assert len(read(tmp_path)) == 1


def test_empty_headings_at_the_end_are_passed_over(tmp_path: Path) -> None:
    taxes = SOUND["taxes.csv"].replace("\n", ",,\n")
    assert faults(written(tmp_path, {"taxes.csv": taxes})) == ()


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_any_line_ending_a_byte_order_mark_blank_rows_and_spaces_are_read(tmp_path: Path, ending: str) -> None:
    goods = SOUND["goods.csv"].replace("SAND,", " SAND ,").replace("FLEECE,", "\n,,,,,,,,,,,\nFLEECE,")
    written(tmp_path, {"goods.csv": b"\xef\xbb\xbf" + goods.replace("\n", ending).encode()})
    assert read(tmp_path).good("SAND").name == "Sharp sand"


CELLS = [
    ("goods.csv", "SAND,Sharp", "FLAG,Sharp", 4, "sku", "'FLAG' stands in row 2 already"),
    ("goods.csv", "SAND,Sharp", "S" * 41 + ",Sharp", 4, "sku", "has 40 at most"),
    ("goods.csv", "SAND,Sharp", "SA;ND,Sharp", 4, "sku", "holds a comma, semicolon"),
    ("goods.csv", "sharp_sand,t", "sharp_snad,t", 4, "item", "the nearest are sharp_sand"),
    ("goods.csv", "sharp_sand,t", "sharp_sand,tons", 4, "unit", "'tons' isn't on the list"),
    ("goods.csv", "sharp_sand,t", "sharp_sand,each", 4, "unit", "sharp_sand isn't sold by each; use t or kg"),
    ("goods.csv", "SAND,Sharp sand,", "SAND,,", 4, "name", "is empty"),
    ("goods.csv", ",LOW,", ",MIDDLE,", 4, "tax", "'MIDDLE' isn't a code in taxes.csv"),
    ("goods.csv", "Sharp sand", "=2+5", 4, "name", "begins with '='"),
    ("goods.csv", "Sharp sand", "+sand", 4, "name", "begins with '+'"),
    ("goods.csv", "Sharp sand", "-sand", 4, "name", "begins with '-'"),
    ("goods.csv", "Sharp sand", " @sand", 4, "name", "begins with '@'"),
    ("goods.csv", "Sharp sand", "\uff1dsand", 4, "name", "formula"),
    ("goods.csv", "Sharp sand", "Sharp\u00a0sand", 4, "name", "U+00A0"),
    ("goods.csv", "Sharp sand", "Sharp\u202esand", 4, "name", "U+202E"),
    ("goods.csv", "Sharp sand", '"Sharp\nsand"', 4, "name", "U+000A"),
    ("goods.csv", "Sharp sand", "s" * 121, 4, "name", "121 characters"),
    ("goods.csv", ",0.2,", ",0.2 kg,", 5, "mass_kg", "'0.2 kg' isn't a number"),
    ("goods.csv", ",0.2,", ',"0,2",', 5, "mass_kg", "the decimal sign is a point"),
    ("goods.csv", ",32,", ",32000,", 3, "mass_kg", "It is the mass of one each"),
    ("goods.csv", "4006381333931", "4006381333932", 2, "gtin", "wrong check digit"),
    ("goods.csv", "4006381333931", "4.00638E+12", 2, "gtin", "format the column as text"),
    ("goods.csv", ",0,FLAG2", ",0,FLAG", 2, "substitutes", "can't stand in for itself"),
    ("goods.csv", ",0,FLAG2", ",0,FLAG3", 2, "substitutes", "'FLAG3' isn't in the file; the nearest are FLAG, FLAG2"),
    ("goods.csv", ",0,FLAG2", ",0,FLAG2; SAND", 2, "substitutes", "'SAND' is sharp_sand, not slab"),
    ("goods.csv", ",3,,", ",3.5,,", 4, "lead_days", "'3.5' isn't a whole number"),
    ("goods.csv", ",3,,", ",400,,", 4, "lead_days", "between 0 and 365"),
    ("goods.csv", "concrete,yes", "concrete,maybe", 2, "made_edges", "write yes or no"),
    ("goods.csv", "sharp_sand,t,,,", "sharp_sand,t,,slate,", 4, "made_of", "is for slabs and edgings"),
    ("goods.csv", "MIX,Mixed pack,slab,m2", "MIX,Mixed pack,slab,each", 6, "unit", "of several sizes is sold by m2"),
    ("goods.csv", ",3,,\n", ",3,,,,7\n", 4, "", "has 14 cells, and there are 12 headings"),
    ("slabs.csv", "FLAG,,600,600,38", "FLAG,,600,600,0.038", 2, "thickness_mm", "It looks like metres: write 38"),
    ("slabs.csv", "FLAG,,600,600,38", "FLAG,,600,600,3.8", 2, "thickness_mm", "It looks like centimetres: write 38"),
    ("slabs.csv", "FLAG,,600,600,38", "FLAG,,0.6,600,38", 2, "length_mm", "It looks like metres: write 600"),
    ("slabs.csv", "FLAG,,600,600,38", "FLAG,,600,6000,38", 2, "width_mm", "between 20 and 3000 mm"),
    ("slabs.csv", "FLAG,,600,600,38", "FLAG,,600,,38", 2, "width_mm", "is empty"),
    ("slabs.csv", "FLAG2,,", "FLOG2,,", 3, "good", "'FLOG2' isn't in goods.csv; the nearest are FLAG2, FLAG"),
    ("slabs.csv", "22,20", "22,", 5, "pieces", "how many of this size"),
    ("packs.csv", "bulk bag,0.85", "bulk bag,0", 5, "content", "between 0.001 and 100000"),
    ("packs.csv", "bulk bag,0.85", "bulk bag,", 5, "content", "is empty"),
    ("packs.csv", "crate of 30,30", "crate of 30,30.5", 3, "content", "come in whole numbers"),
    ("packs.csv", "FLAG-C", "FLAG-1", 3, "sku", "'FLAG-1' is the pack's in row 2 already"),
    ("packs.csv", "FLAG-C", "SAND", 3, "sku", "'SAND' is a good's stock number"),
    ("packs.csv", "0.85,,,,", "0.85,,9,,8", 5, "most", "below the fewest sold, 9"),
    ("packs.csv", "61.25", "0.00", 5, "price", "leave it empty"),
    ("packs.csv", "61.25", "€61.25", 5, "price", "without a currency sign"),
    ("packs.csv", "61.25", '"1,061.25"', 5, "price", "'1,061.25' isn't an amount"),
    ("packs.csv", "61.25", "61.2500001", 5, "price", "isn't an amount"),
    ("packs.csv", "0.85,,,,,61.25,5,,", "0.85,,,,,61.25,5,85,", 5, "mass_kg", "its content weighs 850 kg"),
    ("packs.csv", "985", "98.5", 3, "mass_kg", "its content weighs"),
    ("packs.csv", "roll,45", "roll,54", 6, "content", "the roll's sides make 45"),
    ("packs.csv", ",10,4.5", ",10,", 6, "roll_width_m", "both sides or none"),
    ("packs.csv", "crate,9,", "crate,19,", 7, "content", "the pieces make 9"),
    ("taxes.csv", "5.5", "105.5", 3, "percent", "100 at most"),
    ("taxes.csv", "5.5", "5.5%", 3, "percent", "without the sign"),
    ("catalogue.csv", "places,2", "place,2", 5, "setting", "'place' isn't a setting"),
    ("catalogue.csv", "places,2", ",2", 5, "setting", "is empty"),
    ("catalogue.csv", "places,2", "places,", 5, "value", "is empty"),
    ("catalogue.csv", "places,2", "places,9", 5, "value", "between 0 and 4"),
    ("catalogue.csv", "places,2", "currency,GBP", 5, "setting", "'currency' stands twice"),
    ("catalogue.csv", ",EUR", ",€", 3, "value", "ISO 4217"),
    ("catalogue.csv", "with tax", "with taxes", 4, "value", "the nearest is with tax"),
    ("vehicles.csv", "Tipper", "Lorry", 3, "name", "stands in row 2 already"),
]


@pytest.mark.parametrize(("file", "old", "new", "row", "column", "part"), CELLS)
def test_one_wrong_cell_is_one_fault_at_its_place(
    tmp_path: Path, file: str, old: str, new: str, row: int, column: str, part: str
) -> None:
    here = [
        f
        for f in faults(written(tmp_path, changed(file, old, new)))
        if (f.file, f.row, f.column) == (file, row, column)
    ]
    assert len(here) == 1
    assert part in here[0].what


@pytest.mark.parametrize(("file", "old", "new", "row", "column", "part"), CELLS)
def test_one_wrong_cell_brings_no_faults_in_its_train(
    tmp_path: Path, file: str, old: str, new: str, row: int, column: str, part: str
) -> None:
    consequences = {
        "'FLAG' stands": {("packs.csv", "good")},  # sand's packs hang in the air
        "has 40 at most": {("packs.csv", "good")},
        "holds a comma": {("packs.csv", "good")},
        "'FLOG2' isn't": {("goods.csv", "sku")},  # and the good has lost its size
        "ISO 4217": {("packs.csv", "price"), ("packs.csv", "deposit")},  # the prices have no currency
    }
    allowed = next((places for start, places in consequences.items() if start in part), set())
    for fault in faults(written(tmp_path, changed(file, old, new))):
        assert (fault.file, fault.row, fault.column) == (file, row, column) or (fault.file, fault.column) in allowed


def test_all_faults_are_reported_together_in_order(tmp_path: Path) -> None:
    changes = (
        changed("goods.csv", "Sharp sand", "=1")
        | changed("packs.csv", "61.25", "x")
        | changed("slabs.csv", "FLAG,,600,600,38", "FLAG,,0.6,0.6,0.038")
    )
    assert found(written(tmp_path, changes)) == [
        ("goods.csv", 4, "name"),
        ("packs.csv", 5, "price"),
        ("slabs.csv", 2, "length_mm"),
        ("slabs.csv", 2, "thickness_mm"),
        ("slabs.csv", 2, "width_mm"),
    ]


def test_each_fault_of_one_row_is_reported_at_once(tmp_path: Path) -> None:
    goods = SOUND["goods.csv"].replace("SAND,Sharp sand,sharp_sand,t,,,,LOW", "SAND,=1,sharp_sand,t,,,,MIDDLE")
    goods = goods.replace("0,FLAG2,", "0,FLOG2,").replace("FLAG,Flag", "FLAG,=Flag")
    packs = SOUND["packs.csv"].replace("SAND,bulk bag,0.85,,,,,", "SAND,bulk bag,0,,9,,8,")
    assert found(written(tmp_path, {"goods.csv": goods, "packs.csv": packs})) == [
        ("goods.csv", 2, "name"),
        ("goods.csv", 2, "substitutes"),
        ("goods.csv", 4, "name"),
        ("goods.csv", 4, "tax"),
        ("packs.csv", 5, "content"),
        ("packs.csv", 5, "most"),
    ]


def test_a_good_without_a_pack_or_a_size_is_named(tmp_path: Path) -> None:
    changes = changed("packs.csv", "SAND,bulk bag,0.85,,,,,61.25,5,,1,,\n", "") | changed(
        "slabs.csv", "FLAG2,,600,600,38,\n", ""
    )
    assert [str(fault) for fault in faults(written(tmp_path, changes))] == [
        "goods.csv row 3 column sku: 'FLAG2' has no size in slabs.csv",
        "goods.csv row 4 column sku: 'SAND' has no pack in packs.csv",
    ]


def test_a_size_of_something_without_size_is_named(tmp_path: Path) -> None:
    changes = {"slabs.csv": SOUND["slabs.csv"] + "SAND,,600,600,38,\n"}
    assert found(written(tmp_path, changes)) == [("slabs.csv", 6, "good")]


def test_several_packs_without_numbers_of_their_own_are_told_to_get_them(tmp_path: Path) -> None:
    changes = {"packs.csv": SOUND["packs.csv"] + "SAND,small bag,0.025,,,,,2,,,40,,\n"}
    assert [fault.what for fault in faults(written(tmp_path, changes))] == [
        "'SAND' is the pack's in row 5 already; a good with several packs needs a stock number for each"
    ]


def test_prices_without_a_currency_are_refused(tmp_path: Path) -> None:
    assert ("packs.csv", 2, "price") in found(written(tmp_path, {"catalogue.csv": None}))


@pytest.mark.parametrize(
    ("file", "content", "place", "part"),
    [
        ("goods.csv", None, ("goods.csv", 0, ""), "is missing from the folder"),
        ("packs.csv", b"", ("packs.csv", 0, ""), "is empty"),
        ("goods.csv", SOUND["goods.csv"].replace(",item,", ",itme,"), ("goods.csv", 1, "itme"), "the nearest are item"),
        ("goods.csv", SOUND["goods.csv"].replace(",item,", ",itme,"), ("goods.csv", 1, "item"), "is missing"),
        ("goods.csv", SOUND["goods.csv"].replace(",note", ",name"), ("goods.csv", 1, "name"), "stands twice"),
        ("goods.csv", SOUND["goods.csv"].replace(",", ";"), ("goods.csv", 1, ""), "semicolons"),
        ("goods.csv", SOUND["goods.csv"].encode("utf-16"), ("goods.csv", 0, ""), "UTF-16"),
        (
            "goods.csv",
            SOUND["goods.csv"].replace("Sharp", "Sch\u00e4rfer").encode("cp1252"),
            ("goods.csv", 4, ""),
            "byte 0xe4 isn't UTF-8",
        ),
        ("goods.csv", SOUND["goods.csv"] + 'X,"open,slab', ("goods.csv", 7, ""), "stray quotation mark"),
        ("goods.csv", SOUND["goods.csv"] + "X,a\0b,slab,each", ("goods.csv", 7, "name"), "U+0000"),
        ("goods.csv", SOUND["goods.csv"] + "X," + "y" * 200_000, ("goods.csv", 7, ""), "taken apart"),
    ],
)
def test_a_file_that_cannot_be_read_is_named(
    tmp_path: Path, file: str, content: str | bytes | None, place: tuple[str, int, str], part: str
) -> None:
    here = [f for f in faults(written(tmp_path, {file: content})) if (f.file, f.row, f.column) == place]
    assert len(here) == 1
    assert part in here[0].what


def test_a_huge_file_is_refused_unread(tmp_path: Path) -> None:
    written(tmp_path)
    with (tmp_path / "goods.csv").open("ab") as file:
        file.truncate(200_000_000)
    assert [fault.what for fault in faults(tmp_path)] == ["is 200 MB; 32 MB is the most that is read"]


def test_a_misspelt_file_is_not_passed_over(tmp_path: Path) -> None:
    written(tmp_path, {"tax.csv": SOUND["taxes.csv"]})
    assert found(tmp_path) == [("tax.csv", 0, "")]


def test_a_path_that_is_no_folder_is_refused(tmp_path: Path) -> None:
    assert [str(fault) for fault in faults(tmp_path / "nowhere")] == [
        "nowhere: isn't a folder; a catalogue is a folder of CSV files"
    ]


def test_a_faulty_catalogue_is_not_read(tmp_path: Path) -> None:
    written(tmp_path, changed("packs.csv", "61.25", "x"))
    with pytest.raises(FaultyCatalogue, match=r"packs\.csv row 5 column price: 'x' isn't an amount") as refusal:
        read(tmp_path)
    assert refusal.value.faults == faults(tmp_path)


@pytest.mark.parametrize("digits", ["4006381333931", "73513537", "614141000036", "10614141000415"])
def test_numbers_with_a_right_check_digit_are_taken(tmp_path: Path, digits: str) -> None:
    """Numbers as printed in textbooks on the symbols, from memory; one of each length."""
    assert faults(written(tmp_path, changed("goods.csv", "4006381333931", digits))) == ()


def test_a_catalogue_of_fifty_thousand_lines_is_read(tmp_path: Path) -> None:
    rows = range(25_000)
    goods = "sku,name,item,unit\n" + "".join(f"S{k:05},Sand number {k},sharp_sand,t\n" for k in rows)
    packs = "good,name,content\n" + "".join(f"S{k:05},bulk bag,0.85\n" for k in rows)
    (tmp_path / "goods.csv").write_text(goods, "utf-8")
    (tmp_path / "packs.csv").write_text(packs, "utf-8")
    stocked = read(tmp_path)
    assert len(stocked) == 25_000
    last = stocked.good("S24999")
    assert (last.name, [pack.content for pack in last.packs]) == ("Sand number 24999", [0.85])


def test_fifty_thousand_faults_are_all_reported(tmp_path: Path) -> None:
    rows = range(25_000)
    goods = "sku,name,item,unit\n" + "".join(f"S{k:05},=x,sharp_sand,t\n" for k in rows)
    packs = "good,name,content\n" + "".join(f"T{k:05},bulk bag,0.85\n" for k in rows)
    (tmp_path / "goods.csv").write_text(goods, "utf-8")
    (tmp_path / "packs.csv").write_text(packs, "utf-8")
    assert len(faults(tmp_path)) == 50_000
