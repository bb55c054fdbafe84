"""The least that Flask can do with a JSON body: what the service is measured against."""

from flask import Flask, Response, jsonify, request

app = Flask(__name__, static_folder=None)


@app.post("/<path:address>")
def echo(address: str) -> Response:
    """The body again."""
    return jsonify(request.get_json())


@app.get("/health/ready")
def ready() -> str:
    """Ready, by the address where the service says so."""
    return "ok"
