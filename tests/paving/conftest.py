"""What the tests of the trade share."""

import pytest

from service.paving.sheets import Sheet


@pytest.fixture
def sheet() -> Sheet:
    """A blank sheet."""
    return Sheet()
