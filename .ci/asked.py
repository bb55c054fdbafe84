"""Ask a running service for the demo job and hold its answer against the committed one. One argument: its address."""

import json
import sys
import time
import urllib.request
from pathlib import Path

EXAMPLES = Path(__file__).parents[1] / "openapi" / "examples"
REQUEST, ANSWER = EXAMPLES / "takeoffs-demo.request.json", EXAMPLES / "takeoffs-demo.answer.json"


def wait(address: str, patience: float = 60.0) -> None:
    """Until the service is ready."""
    end = time.monotonic() + patience
    while not _ready(address):
        if time.monotonic() > end:
            raise TimeoutError(f"{address} didn't answer within {patience:.0f} s.")
        time.sleep(0.1)


def _ready(address: str) -> bool:
    try:
        with urllib.request.urlopen(f"{address}/health/ready", timeout=5) as reply:
            return bool(reply.status == 200)
    except OSError:
        return False


def main(address: str) -> int:
    """0 if the answer is the committed one."""
    wait(address)
    asked = urllib.request.Request(f"{address}/v1/takeoffs", REQUEST.read_bytes(), {"Content-Type": "application/json"})
    with urllib.request.urlopen(asked, timeout=30) as reply:
        answer = json.loads(reply.read())
    if answer != json.loads(ANSWER.read_bytes()):
        print(f"The answer to {REQUEST.name} isn't {ANSWER.name}:\n{json.dumps(answer, indent=1)}")
        return 1
    print(f"The demo job's answer is the committed one: {len(answer['bill'])} bill lines.")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
