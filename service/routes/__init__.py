"""The web: turns HTTP into one call of the trade. Knows Flask."""

from flask import Flask, Response
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


class Service(Flask):
    """Flask, but for OPTIONS: an answer without a body has no length and no type to say."""

    def make_default_options_response(self) -> Response:
        """The methods an address takes."""
        adapter = request_ctx.url_adapter
        assert adapter is not None
        response = Response(status=204)
        response.headers["Allow"] = ", ".join(sorted(adapter.allowed_methods()))
        return response


def register(app: Flask) -> None:
    """Give the application every address."""
    app.url_map.merge_slashes = False  # "//" is nothing's address, not a redirect to something's
    v1 = resources.blueprint()
    listings.add_addresses(v1)
    lookups.add_addresses(v1)
    app.register_blueprint(v1)
    app.register_blueprint(health.health)
    app.register_blueprint(contract.contract)
    problems.register(app)
