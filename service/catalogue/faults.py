"""Faults of a catalogue: what is wrong, in which file, row and column."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing wrong with a catalogue.

    Parameters
    ----------
    file : str
        Name of the file, or of the folder.
    row : int
        Row as a spreadsheet counts it, the headings being row 1; 0 for the whole file.
    column : str
        Heading of the column, or empty for the whole row.
    what : str
        What is wrong and how to mend it.
    """

    file: str
    row: int
    column: str
    what: str

    def __str__(self) -> str:
        row = f" row {self.row}" if self.row else ""
        column = f" column {self.column}" if self.column else ""
        return f"{self.file}{row}{column}: {self.what}"


class FaultyCatalogue(Exception):
    """A catalogue that can't be used; carries every fault found in it."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__("\n".join(str(fault) for fault in faults))
        self.faults = faults
