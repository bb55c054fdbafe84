"""A real gunicorn on a free loopback port, for the tests and benchmarks that need one."""

import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
CONFIGURATION = ROOT / "docker" / "gunicorn.conf.py"


@dataclass(frozen=True)
class Server:
    """A running server: its process, its port, and how long it took to answer first [s]."""

    process: subprocess.Popen[bytes]
    port: int
    started_in: float

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def reply(self, sent: bytes, patience: float = 5.0) -> bytes:
        """Everything the server says to some raw bytes, until it closes or has said nothing for `patience` seconds."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=patience) as line:
            line.sendall(sent)
            line.shutdown(socket.SHUT_WR)
            return b"".join(iter(lambda: line.recv(65536), b""))


def free_port() -> int:
    """A loopback port nobody listens on."""
    with socket.socket() as line:
        line.bind(("127.0.0.1", 0))
        return int(line.getsockname()[1])


@contextmanager
def served(application: str | None = None, **environment: str) -> Iterator[Server]:
    """A server under the service's own gunicorn configuration, stopped at the end.

    Parameters
    ----------
    application : str or None
        Another application to serve under it, which must answer /health/ready; the service if None.
    environment : str
        More environment variables.
    """
    port = free_port()
    command = [sys.executable, "-m", "gunicorn", "--config", str(CONFIGURATION), "--log-level", "critical"]
    variables = os.environ | environment | {"PAVING_QUANTITIES_BIND": f"127.0.0.1:{port}"}
    began = time.perf_counter()
    process = subprocess.Popen([*command, *([application] if application else [])], cwd=ROOT, env=variables)
    try:
        _wait(process, f"http://127.0.0.1:{port}/health/ready")
        yield Server(process, port, time.perf_counter() - began)
    finally:
        process.terminate()
        process.wait(30)


def _wait(process: subprocess.Popen[bytes], address: str, patience: float = 30.0) -> None:
    end = time.perf_counter() + patience
    while time.perf_counter() < end and process.poll() is None:
        try:
            with urllib.request.urlopen(address, timeout=5):
                return
        except OSError:
            time.sleep(0.02)
    raise RuntimeError(f"{address} didn't answer; gunicorn's exit status: {process.poll()}")
