"""The web: turns HTTP into one call of the trade. Knows Flask."""

from flask import Flask, Response, request
from flask.globals import request_ctx

from service.routes import (
    areas,
    beds,
    borders,
    catalogue,
    contract,
    drainage,
    edgings,
    excavations,
    health,
    joints,
    layers,
    layouts,
    levels,
    lifting,
    listings,
    lists,
    lookups,
    membranes,
    mixes,
    no_cut_sizes,
    order_checks,
    problems,
    programmes,
    ramps,
    resources,
    soakaways,
    steps,
    takeoffs,
    trees,
    vibration,
    weather,
)

#: The resources, in the order of the contract: importing one makes it answer.
NOUNS = (
    areas,
    layers,
    beds,
    mixes,
    joints,
    layouts,
    no_cut_sizes,
    levels,
    excavations,
    membranes,
    edgings,
    borders,
    drainage,
    soakaways,
    trees,
    ramps,
    steps,
    lifting,
    vibration,
    weather,
    programmes,
    takeoffs,
    order_checks,
    lists,
    catalogue,
)


def register(app: Flask) -> None:
    """Give the application every address."""
    app.url_map.merge_slashes = False  # "//" is nothing's address, not a redirect to something's
    v1 = resources.blueprint()
    listings.add_addresses(v1)
    lookups.add_addresses(v1)
    app.register_blueprint(v1)
    app.register_blueprint(health.health)
    app.register_blueprint(contract.contract)
    app.before_request(_options)
    problems.register(app)


def _options() -> Response | None:
    """Answer OPTIONS with the methods an address takes and no body."""
    adapter = request_ctx.url_adapter
    if request.method != "OPTIONS" or request.routing_exception is not None or adapter is None:
        return None
    response = Response(status=204)
    response.headers["Allow"] = ", ".join(sorted(adapter.allowed_methods()))
    return response
