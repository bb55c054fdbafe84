"""Load on a server: requests a second that it answers, by wrk if that is installed."""

import http.client
import json
import re
import shutil
import subprocess
import tempfile
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path

CONNECTIONS = 8
JSON = {"Content-Type": "application/json"}

#: Port, path, bodies to send in turn, seconds; requests a second.
Load = Callable[[int, str, Sequence[bytes], float], float]


#: A body is sent as it is; of several the next one each time.
_SCRIPT = """wrk.method = "POST"
wrk.headers["Content-Type"] = "application/json"
local requests, turn = {}, 0
function init()
  for k, body in ipairs({%s}) do requests[k] = wrk.format(nil, nil, nil, body) end
end
function request()
  turn = turn %% #requests + 1
  return requests[turn]
end
"""


def by_wrk(port: int, path: str, bodies: Sequence[bytes], seconds: float) -> float:
    """Requests a second, as wrk counts them."""
    with tempfile.TemporaryDirectory() as folder:
        script = Path(folder, "post.lua")
        # A JSON string without escapes above ASCII is a Lua string too.
        script.write_text(_SCRIPT % ",".join(map(_lua, bodies)), "utf-8")
        duration = f"{max(1, round(seconds))}s"
        command = [
            "wrk",
            "-t1",
            f"-c{CONNECTIONS}",
            f"-d{duration}",
            "-s",
            str(script),
            f"http://127.0.0.1:{port}{path}",
        ]
        said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    found = re.search(r"Requests/sec: +([0-9.]+)", said)
    if "Non-2xx" in said or "Socket errors" in said or found is None:
        raise RuntimeError(said)
    return float(found[1])


def _lua(body: bytes) -> str:
    return json.dumps(body.decode("ascii"))


def by_python(port: int, path: str, bodies: Sequence[bytes], seconds: float) -> float:
    """Requests a second, by threads that each keep a connection. Slower than wrk: it shares the cores more."""
    counts = [0] * CONNECTIONS
    end = time.perf_counter() + seconds

    def ask(slot: int) -> None:
        line = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
        while time.perf_counter() < end:
            line.request("POST", path, bodies[counts[slot] % len(bodies)], JSON)
            reply = line.getresponse()
            reply.read()
            if reply.status != 200:
                raise RuntimeError(f"{path} answered {reply.status}")
            counts[slot] += 1
        line.close()

    threads = [threading.Thread(target=ask, args=(slot,)) for slot in range(CONNECTIONS)]
    began = time.perf_counter()
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if not all(counts):
        raise RuntimeError(f"{path}: a connection was never answered")
    return sum(counts) / (time.perf_counter() - began)


def load() -> tuple[str, Load]:
    """The load there is, by name."""
    return ("wrk", by_wrk) if shutil.which("wrk") else ("a Python client; wrk isn't installed", by_python)
