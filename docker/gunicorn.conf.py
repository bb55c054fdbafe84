"""How gunicorn serves Paving Quantities, on a desk and in a container alike.

WEB_CONCURRENCY sets the number of workers, PAVING_QUANTITIES_BIND the address; GUNICORN_CMD_ARGS overrides the rest.
"""

import gc
import json
import os
from pathlib import Path
from typing import Any

from gunicorn import util
from gunicorn.http.body import ChunkedReader
from gunicorn.http.errors import ParseException


def _cores() -> int:
    """The cores this process may use: those it is pinned to, or what its control group pays for if that is less."""
    pinned = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    try:
        quota, period = Path("/sys/fs/cgroup/cpu.max").read_text("ascii").split()
    except (OSError, ValueError):
        return pinned
    return pinned if quota == "max" else min(pinned, max(1, round(int(quota) / int(period))))


wsgi_app = "service:create_app()"
bind = os.environ.get("PAVING_QUANTITIES_BIND", "127.0.0.1:8000")

# An answer is arithmetic, so one worker a core; the threads keep a slow client from holding a core up.
worker_class = "gthread"
workers = int(os.environ.get("WEB_CONCURRENCY") or _cores())
threads = 4
keepalive = 5
timeout = 30
graceful_timeout = 20
# Loaded once, before the workers fork: they start at once and share its memory.
preload_app = True
# A worker's heartbeat is a file; on a disk that stalls it would get the worker killed, and a read-only root has none.
worker_tmp_dir = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
# It would be opened in the home directory, which a container's user doesn't have.
control_socket_disable = True

# The longest address; the contract says so under 414.
limit_request_line = 8190
limit_request_fields = 100
limit_request_field_size = 8190

#: Title and detail of each refusal. The titles are the RFCs' own: http.HTTPStatus has others by Python version.
_REFUSALS = {
    400: ("Bad Request", "This isn't a request that HTTP allows."),
    403: ("Forbidden", "This address doesn't take requests from there."),
    414: (
        "URI Too Long",
        f"The request line exceeds {limit_request_line} bytes; send the same fields as JSON by POST.",
    ),
    417: ("Expectation Failed", "Only 100-continue can be expected."),
    431: (
        "Request Header Fields Too Large",
        f"At most {limit_request_fields} headers of at most {limit_request_field_size} bytes each are taken.",
    ),
    500: ("Internal Server Error", "The service failed; the fault is ours and has been logged."),
    501: ("Not Implemented", "That transfer coding isn't known here; send a Content-Length, or send the body chunked."),
}


def problem(status: int) -> bytes:
    """A whole response: the same problem document as the service's own errors have."""
    title, detail = _REFUSALS.get(status, _REFUSALS[500])
    document = {"type": "about:blank", "title": title, "status": status, "detail": detail, "errors": []}
    body = json.dumps(document, separators=(",", ":")).encode("ascii")
    head = (
        f"HTTP/1.1 {status} {title}",
        "Connection: close",
        "Content-Type: application/problem+json",
        "Cache-Control: no-store",
        f"Content-Length: {len(body)}",
    )
    return "\r\n".join(head).encode("ascii") + b"\r\n\r\n" + body


def _write_error(sock: Any, status_int: int, reason: str, mesg: str) -> None:
    # What gunicorn says in `mesg` repeats the client's bytes; it is logged, never sent back.
    util.write_nonblock(sock, problem(status_int))


def _read_chunks(reader: ChunkedReader, size: int, read: Any = ChunkedReader.read) -> Any:
    # A stream that can't be read raises OSError by PEP 3333's likeness to a file, which werkzeug answers with 400;
    # gunicorn's own exception for chunks that aren't would pass it by and come out as 500.
    try:
        return read(reader, size)
    except ParseException as error:
        raise OSError(str(error)) from error


# gunicorn has no settings for these. Both are private: gunicorn is pinned below its next major version in
# pyproject.toml, and tests/container/test_gunicorn.py sends what gunicorn itself refuses.
util.write_error = _write_error
ChunkedReader.read = _read_chunks


def when_ready(server: Any) -> None:
    """Leave what was loaded out of garbage collection, so that a collection in a worker doesn't copy shared pages."""
    gc.collect()
    gc.freeze()
