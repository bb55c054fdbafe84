"""Ask a running service for the demo job and hold its answer against the committed one. One argument: its address."""

import difflib
import json
import sys
import time
import urllib.request
from pathlib import Path

EXAMPLE = Path(__file__).parents[1] / "openapi" / "examples" / "post_takeoffs.json"


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
    example = json.loads(EXAMPLE.read_bytes())
    request, expected = example["request"], example["answer"]["body"]
    wait(address)
    body = json.dumps(request["body"]).encode("ascii")
    asked = urllib.request.Request(f"{address}{request['path']}", body, {"Content-Type": "application/json"})
    with urllib.request.urlopen(asked, timeout=30) as reply:
        answer = json.loads(reply.read())
    if answer != expected:
        said = [json.dumps(each, indent=1, sort_keys=True).splitlines() for each in (expected, answer)]
        print(*difflib.unified_diff(*said, EXAMPLE.name, "answered", n=1, lineterm=""), sep="\n")
        return 1
    print(f"The demo job's answer is the committed one: {len(answer['bill'])} bill lines.")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
