"""The merchant's goods: reads and checks the files they are kept in; a generic default."""

from service.catalogue.columns import FILES, SETTINGS
from service.catalogue.faults import Fault, FaultyCatalogue
from service.catalogue.readers import faults, generic, read

__all__ = ["FILES", "SETTINGS", "Fault", "FaultyCatalogue", "faults", "generic", "read"]
