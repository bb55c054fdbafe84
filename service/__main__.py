"""The command `paving-quantities`."""

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

import yaml

from service import create_app
from service.settings import Settings


def main(arguments: list[str] | None = None) -> int:
    """Run one command; the exit status."""
    parser = argparse.ArgumentParser(prog="paving-quantities", description="Quantities for an area of paving.")
    commands = parser.add_subparsers(dest="command", required=True)
    contract = commands.add_parser("contract", help="write the OpenAPI document")
    contract.add_argument("path", nargs="?", type=Path, help="file to write; standard output if left out")
    contract.set_defaults(run=lambda given: _contract(given.path))
    check = commands.add_parser("check-catalogue", help="report every fault of a catalogue")
    check.add_argument("path", type=Path, help="folder with the catalogue's files")
    check.set_defaults(run=lambda given: _check_catalogue(given.path))
    columns = commands.add_parser("catalogue-columns", help="print what each column of a catalogue holds")
    columns.set_defaults(run=lambda given: _catalogue_columns())
    given = parser.parse_args(arguments)
    status: int = given.run(given)
    return status


def _contract(path: Path | None) -> int:
    from service.routes.contract import document

    create_app(Settings())
    text = yaml.safe_dump(document(), sort_keys=False, allow_unicode=True, width=110)
    if path is None:
        sys.stdout.write(text)
    else:
        path.write_text(text, "utf-8")
    return 0


def _check_catalogue(path: Path) -> int:
    from service.catalogue import FaultyCatalogue, read

    try:
        goods = read(path)
    except FaultyCatalogue as faulty:
        sys.stdout.write(f"{faulty}\n")
        sys.stderr.write(f"{len(faulty.faults)} to mend.\n")
        return 1
    packs = sum(len(good.packs) for good in goods)
    sys.stdout.write(f"Nothing to mend: {len(goods)} goods in {packs} packs.\n")
    return 0


def _catalogue_columns() -> int:
    sys.stdout.write("\n".join(_columns()) + "\n")
    return 0


def _columns() -> Iterator[str]:
    """The files of a catalogue and their columns, as Markdown."""
    from service.catalogue import FILES, SETTINGS

    yield "A catalogue is a folder of these files: CSV (RFC 4180), UTF-8, commas between cells, the point as decimal"
    yield "sign, headings in the first row in any order. * every row must have it."
    for file in FILES:
        yield from ("", f"## {file.name}{'' if file.needed else ' (may be left out)'}", "", file.about, "")
        yield from ("| column | what it holds |", "| --- | --- |")
        yield from (f"| {each.name}{'*' if each.needed else ''} | {each.about} |" for each in file.columns)
    yield from ("", "## Settings of catalogue.csv", "", "| setting | what it says |", "| --- | --- |")
    yield from (f"| {name} | {about} |" for name, (_, about) in SETTINGS.items())


if __name__ == "__main__":
    sys.exit(main())
