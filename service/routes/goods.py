"""The merchant's goods, as this application has loaded them."""

from functools import cache

from flask import current_app, has_app_context

from service.catalogue import generic
from service.paving.ordering.goods import Goods


def goods() -> Goods:
    """The goods on offer: the merchant's own, or the built-in generic ones."""
    own: Goods | None = current_app.config.get("GOODS") if has_app_context() else None
    return own or _generic()


@cache
def _generic() -> Goods:
    return generic()
