"""/health: whether the process runs, and whether it is ready to answer."""

from flask import Blueprint, Response

health = Blueprint("health", __name__, url_prefix="/health")


@health.get("/live")
@health.get("/ready")
def live() -> Response:
    """Everything an answer needs is loaded before the first request, so a process that lives is ready."""
    return Response("ok", mimetype="text/plain")
