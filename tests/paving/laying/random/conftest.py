"""A table that tests add lines to, printed at the end of the run."""

import pytest

LINES = pytest.StashKey[list[str]]()


@pytest.fixture
def compared(request: pytest.FixtureRequest) -> list[str]:
    """Lines on how a solver and the project did at the same task."""
    return request.config.stash.setdefault(LINES, [])


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    lines = config.stash.get(LINES, [])
    if lines:
        terminalreporter.section("mixed laying, a solver (HiGHS) against ours, ms of processor time")
        for line in lines:
            terminalreporter.write_line(line)
