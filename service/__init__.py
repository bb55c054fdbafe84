"""Paving Quantities: what to dig, mix, buy and lay for an area of paving."""

from flask import Flask

from service.settings import Settings

__version__ = "0.1.0"


def create_app(settings: Settings | None = None) -> Flask:
    """The application, ready to serve.

    Parameters
    ----------
    settings : Settings or None
        How to run; from the environment if None.

    Raises
    ------
    FaultyCatalogue
        If there is anything wrong with the merchant's catalogue; says every fault in it.
    """
    from service import routes
    from service.catalogue import generic, read
    from service.routes.kept_answers import KeptAnswers

    chosen = settings or Settings.from_environment()
    app = routes.Service(__name__, static_folder=None)
    app.config["MAX_CONTENT_LENGTH"] = chosen.most_body_bytes
    app.config["CACHE_SECONDS"] = chosen.cache_seconds
    # Read once, before a server forks its workers: they share it.
    app.config["GOODS"] = read(chosen.catalogue) if chosen.catalogue else generic()
    app.config["KEPT_ANSWERS"] = KeptAnswers(chosen.kept_bytes)
    routes.register(app)
    return app
