"""Does LibreOffice Calc get figures out of the service by formula? python -m tests.clients.libreoffice

Needs `apt-get install --no-install-recommends libreoffice-calc python3-uno`. Makes a sheet of formulas, opens it in
LibreOffice with a profile of its own, works it out, and holds each cell against what the formula must give.
"""

import json
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from xml.sax.saxutils import quoteattr

from tests.container.servers import Server, free_port, served

#: LibreOffice asks other addresses only for sheets in places that the user trusts (Options, Security, Trusted Sources).
_PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Common/Security/Scripting"><prop oor:name="SecureURL" oor:op="fuse">
<value><it>{trusted}</it></value></prop></item>
</oor:items>
"""
_SHEET = """<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"
 office:version="1.2" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet><table:table table:name="paving">{rows}</table:table></office:spreadsheet></office:body>
</office:document>
"""
_ROW = "<table:table-row><table:table-cell table:formula={formula}/></table:table-row>"

_CIRCLE = "shape=circle&diameter=2m"
_TERRACE = "shape=l_shape&length=7.2m&width=5.4m&notch_length=2.4m&notch_width=1.8m"


def formulas(server: str) -> dict[str, tuple[str, Callable[[dict[str, object]], bool]]]:
    """What each cell is for: its formula, and whether what it shows is right.

    The terrace is 7.2 x 5.4 m less 2.4 x 1.8 m: 34.56 m2. A layer of 20 m2 by 150 mm is 3 m3.
    """

    def web(address: str) -> str:
        return f'COM.MICROSOFT.WEBSERVICE("{server}{address}")'

    layer = "/v1/layers{}?area=20m2&material=type_1&depth=150mm"
    encoded = (
        f'"{server}/v1/layers/compacted_volume_m3?material=type_1&depth=150mm&area="&COM.MICROSOFT.ENCODEURL("20 m2")'
    )
    return {
        "one figure": (
            f'NUMBERVALUE({web(f"/v1/areas/area_m2?{_TERRACE}")};".")',
            lambda cell: cell["number"] == 34.56,
        ),
        "one figure in a sum": (
            f'2*NUMBERVALUE({web(layer.format("/compacted_volume_m3"))};".")',
            lambda cell: cell["number"] == 6,
        ),
        "a figure with no digit after it": (f"LEN({web(f'/v1/areas/area_m2?{_TERRACE}')})", lambda c: c["number"] == 5),
        "a value written with a space": (
            f'NUMBERVALUE(COM.MICROSOFT.WEBSERVICE({encoded});".")',
            lambda cell: cell["number"] == 3,
        ),
        "XML": (
            f'COM.MICROSOFT.FILTERXML({web(layer.format(".xml"))};"number(//compacted_volume_m3)")',
            lambda cell: cell["number"] == 3,
        ),
        "JSON as text": (f"LEFT({web(f'/v1/areas?{_CIRCLE}')};1)", lambda cell: cell["text"] == "{"),
        "CSV as text": (f"LEFT({web(f'/v1/areas.csv?{_CIRCLE}')};7)", lambda cell: cell["text"] == "area_m2"),
        "a refusal is an error": (web("/v1/areas/area_m2?shape=circle&diameter=2"), lambda cell: cell["error"] != 0),
    }


def cells(server: Server, folder: Path, column: list[str]) -> list[dict[str, object]]:
    """What LibreOffice shows for a column of formulas."""
    profile, sheets = folder / "profile", folder / "sheets"
    (profile / "user").mkdir(parents=True)
    sheets.mkdir()
    (profile / "user" / "registrymodifications.xcu").write_text(_PROFILE.format(trusted=sheets.as_uri()), "utf-8")
    rows = "".join(_ROW.format(formula=quoteattr(f"of:={formula}")) for formula in column)
    sheet = sheets / "paving.fods"
    sheet.write_text(_SHEET.format(rows=rows), "utf-8")
    port = str(free_port())
    office = subprocess.Popen(
        ["soffice", "--headless", "--norestore", f"-env:UserInstallation={profile.as_uri()}",
         f"--accept=socket,host=127.0.0.1,port={port};urp;"],
        stdout=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        reader = ["/usr/bin/python3", str(Path(__file__).with_name("sheet_cells.py")), port, sheet.as_uri()]
        said = subprocess.run(reader, check=True, stdout=subprocess.PIPE, text=True, timeout=120)
        office.wait(30)
    finally:
        if office.poll() is None:
            office.terminate()
            office.wait(30)
    found: list[dict[str, object]] = json.loads(said.stdout)
    return found


def main() -> int:
    """Print each cell; 0 if all are right."""
    print(subprocess.run(["soffice", "--version"], check=True, capture_output=True, text=True).stdout.strip())
    wrong = 0
    with tempfile.TemporaryDirectory() as folder, served() as server:
        asked = formulas(server.address)
        shown = cells(server, Path(folder), [formula for formula, _ in asked.values()])
        for (name, (_, right)), cell in zip(asked.items(), shown, strict=True):
            wrong += not right(cell)
            print(f"{'ok   ' if right(cell) else 'WRONG'} {name}: {cell}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
