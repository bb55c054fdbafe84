"""Open a sheet in a listening LibreOffice, work it out afresh, and print its first column as JSON.

Run by the Python that LibreOffice's own bridge is installed for. Arguments: the office's port, the sheet's address.
"""

import json
import sys
import time
from typing import Any


def _office(port: str) -> Any:
    import uno

    # Only importable once uno is.
    from com.sun.star.connection import NoConnectException

    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    for _ in range(300):
        try:
            return resolver.resolve(f"uno:socket,host=127.0.0.1,port={port};urp;StarOffice.ComponentContext")
        except NoConnectException:
            time.sleep(0.1)
    raise TimeoutError("the office didn't answer")


def main(port: str, address: str) -> None:
    """Print each cell's text, its number and its error."""
    office = _office(port)
    # Only importable once uno is.
    from com.sun.star.beans import PropertyValue

    desktop = office.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", office)
    # Hidden; links are followed without asking (3: full update) and nothing is asked about macros (4: no warning).
    options = {"Hidden": True, "UpdateDocMode": 3, "MacroExecutionMode": 4}
    settings = tuple(PropertyValue(Name=name, Value=value) for name, value in options.items())
    document = desktop.loadComponentFromURL(address, "_blank", 0, settings)
    document.calculateAll()
    sheet = document.Sheets.getByIndex(0)
    cells = []
    while (cell := sheet.getCellByPosition(0, len(cells))).getFormula():
        cells.append({"text": cell.String, "number": cell.Value, "error": cell.getError()})
    document.close(True)
    desktop.terminate()
    print(json.dumps(cells))


if __name__ == "__main__":
    main(*sys.argv[1:])
