"""For .ci/serve. `free`: say so if the address is taken. `look PID`: once it answers, say where to look."""

import os
import socket
import sys
import time
import urllib.request

HOST, _, PORT = os.environ["PAVING_QUANTITIES_BIND"].rpartition(":")
ADDRESS = f"http://{HOST}:{PORT}"
LOOK = f"""
Paving Quantities answers on {ADDRESS}
  the contract    {ADDRESS}/openapi.json
  one request     curl -s '{ADDRESS}/v1/areas?shape=rectangle&length=7.2m&width=5.4m'
  stop it         Ctrl-C
"""


def free() -> int:
    """Whether the address can be listened on, as an exit status."""
    with socket.socket() as line:
        line.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            line.bind((HOST, int(PORT)))
        except OSError as error:
            print(f"Can't listen on {HOST}:{PORT}: {error.strerror}.", file=sys.stderr)
            print("Choose another: PAVING_QUANTITIES_BIND=127.0.0.1:8001 sh .ci/serve", file=sys.stderr)
            return 1
    return 0


def look(server: int) -> int:
    """Wait until the server answers, as long as its process lives."""
    for _ in range(300):
        time.sleep(0.1)
        try:
            os.kill(server, 0)
            with urllib.request.urlopen(f"{ADDRESS}/health/ready", timeout=5):
                print(LOOK, flush=True)
                return 0
        except ProcessLookupError:
            return 1
        except OSError:
            continue
    return 1


if __name__ == "__main__":
    sys.exit(free() if sys.argv[1] == "free" else look(int(sys.argv[2])))
