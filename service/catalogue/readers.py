"""Reading a catalogue: all of it, or every fault in it."""

from functools import cache
from pathlib import Path

from service.catalogue.books import goods_of, read_book, settings
from service.catalogue.checks import cross_faults, stray_files
from service.catalogue.columns import CATALOGUE
from service.catalogue.faults import Fault, FaultyCatalogue
from service.paving.ordering.goods import Goods

_GENERIC = Path(__file__).parent / "invented"


def read(path: str | Path) -> Goods:
    """The goods of a catalogue.

    Parameters
    ----------
    path : str or Path
        Folder with the catalogue's files; `columns.FILES` says what stands in each.

    Returns
    -------
    Goods
        The goods, with the merchant's terms.

    Raises
    ------
    FaultyCatalogue
        If there is anything wrong with it; carries every fault found.
    """
    goods, found = _read(Path(path))
    if goods is None:
        raise FaultyCatalogue(found)
    return goods


def faults(path: str | Path) -> tuple[Fault, ...]:
    """Every fault of a catalogue, by file and row; none when it is sound."""
    return _read(Path(path))[1]


@cache
def generic() -> Goods:
    """The built-in catalogue: invented goods in common sizes, with no prices."""
    return read(_GENERIC)


def _read(folder: Path) -> tuple[Goods | None, tuple[Fault, ...]]:
    if not folder.is_dir():
        return None, (Fault(folder.name, 0, "", "isn't a folder; a catalogue is a folder of CSV files"),)
    book = read_book(folder)
    given = settings(book.tables[CATALOGUE.name])
    found = [*stray_files(folder), *(fault for table in book.tables.values() for fault in table.faults)]
    if all(table.sound for table in book.tables.values()):
        found += cross_faults(book, given)
    if found:
        return None, tuple(sorted(set(found)))
    return goods_of(book, given), ()
