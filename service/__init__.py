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
    """
    from service import routes

    chosen = settings or Settings.from_environment()
    app = Flask(__name__, static_folder=None)
    app.config["MAX_CONTENT_LENGTH"] = chosen.most_body_bytes
    app.config["CACHE_SECONDS"] = chosen.cache_seconds
    routes.register(app)
    return app
