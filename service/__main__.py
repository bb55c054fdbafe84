"""The command `paving-quantities`."""

import argparse
import sys
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
    return _contract(parser.parse_args(arguments).path)


def _contract(path: Path | None) -> int:
    from service.routes.contract import document

    create_app(Settings())
    text = yaml.safe_dump(document(), sort_keys=False, allow_unicode=True, width=110)
    if path is None:
        sys.stdout.write(text)
    else:
        path.write_text(text, "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
