"""The contract fuzzed against a real server: every check, every phase, nothing let off."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.container.servers import ROOT, served

CONFIGURATION = Path(__file__).with_name("schemathesis.toml")


@pytest.mark.slow
def test_no_request_made_up_from_the_contract_breaks_it(contract):
    with served(WEB_CONCURRENCY="1") as server:
        command = [sys.executable, "-m", "schemathesis.cli", "--config-file", str(CONFIGURATION), "run", "--no-color"]
        run = subprocess.run(
            [*command, f"{server.address}/openapi.json"],
            check=False,
            cwd=ROOT,
            capture_output=True,
            text=True,
            timeout=1800,
        )
    assert run.returncode == 0, run.stdout[-20_000:] + run.stderr[-2000:]
    operations = sum(len(methods) for methods in contract["paths"].values())
    assert f"Selected: {operations}/{operations}" in run.stdout
    assert f"Tested: {operations}" in run.stdout
    sent = re.search(r"([0-9]+) generated, \1 passed", run.stdout)
    assert sent, run.stdout[-2000:]
    assert int(sent[1]) > 200 * operations
    assert "Fuzzing (in" in run.stdout
