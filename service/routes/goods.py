"""The merchant's goods, as this application has loaded them."""

from flask import current_app, has_app_context

from service.catalogue import generic
from service.paving.ordering.goods import Goods


def goods() -> Goods:
    """The goods on offer: the application's, or the built-in ones where the contract is written without one."""
    if not has_app_context():
        return generic()
    own: Goods = current_app.config["GOODS"]
    return own
