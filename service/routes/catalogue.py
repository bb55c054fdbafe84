"""/v1/catalogue, /v1/catalogue/<sku>"""

from service.paving.ordering.browsing import Page, goods_page
from service.paving.ordering.goods import Good
from service.routes.goods import goods
from service.routes.listings import listing
from service.routes.lookups import lookup
from service.schemas.goods import CatalogueAnswer, CatalogueQuestion, GoodAnswer, Sku


@listing("catalogue", CatalogueAnswer(), CatalogueQuestion())
def catalogue(item: str | None, text: str | None, page: int, per_page: int) -> Page:
    """The merchant's goods: filtered by item and by words, a page at a time."""
    return goods_page(goods(), item, text, page, per_page)


@lookup("catalogue", Sku(description="Stock number of a good or of a pack.", example="T1-BB"), GoodAnswer())
def good(sku: str) -> Good:
    """One of the merchant's goods, by its stock number or by that of one of its packs."""
    own = goods()
    return own.good(sku) if sku in own.skus else own.pack(sku)[0]
