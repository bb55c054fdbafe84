"""The wire of order checks: a job, an order as it is written, and what is said of it."""

from typing import Any

from marshmallow import ValidationError

from service.paving.errors import OutOfRange, within
from service.paving.ordering.order_lines import WrittenLine
from service.schemas.answers import Answer
from service.schemas.fields import Text, WireField
from service.schemas.figures import AnswerField, Figure, Figures, Money, Resolve, Rows, Section, Tally, Word
from service.schemas.nested import Object, Objects
from service.schemas.ordering import PackRow, Share
from service.schemas.pasted_orders import MOST_LINES, pasted_lines
from service.schemas.requests import Question, Request
from service.schemas.takeoffs import TakeOffQuestion

_WRITTEN = "[ -~\u00a0-\u024f]"
_LONGEST_TEXT, _LONGEST_ORDER = 80, 500_000


class Written(Text):
    """Text as someone wrote it on one line; the trade makes of it what it can."""

    def __init__(self, **kwargs: Any) -> None:
        form = f"text on one line, not above {_LONGEST_TEXT} characters"
        super().__init__(f"{_WRITTEN}{{0,{_LONGEST_TEXT}}}", form, **kwargs)


class WrittenQuantity(Written):
    """A quantity as someone wrote it, or a JSON number."""

    def read(self, value: Any) -> Any:
        if isinstance(value, int | float) and not isinstance(value, bool):
            return value
        return super().read(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"anyOf": [{"type": "number"}, super().document(resolve)]}


class Pasted(WireField):
    """A pasted table: any signs, lines and tabs."""

    _PATTERN = "[\\t\\n\\r -~\u00a0-\ud7ff\ue000-\ufffd]*"
    _SIGNS = Text(_PATTERN, "text without control characters")

    def read(self, value: Any) -> str:
        text: str = self._SIGNS.read(value)
        if not 1 <= len(text) <= _LONGEST_ORDER:
            raise ValidationError(f"Must have 1 to {_LONGEST_ORDER} characters.")
        return text

    def document(self, resolve: Resolve) -> dict[str, Any]:
        example = {"examples": [self.example]} if self.example else {}
        return self._SIGNS.document(resolve) | {"minLength": 1, "maxLength": _LONGEST_ORDER, **example}


class OrderLineFields(Request):
    """One line of an order, as it is written."""

    sku = Written(description="Stock number of a good or a pack.", example="T1-BB")
    item = Written(description="In place of a stock number: an item's key, or words for one good.", example="cement")
    quantity = WrittenQuantity(
        required=True, description="How many; figures, a point as decimal sign. Part of a pack isn't read.", example="9"
    )
    unit = Written(description="t, kg, m3, m2, m, each, or the pack. A pack's stock number needs none.", example="t")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        quantity = values["quantity"]
        text = quantity if isinstance(quantity, str) else f"{quantity:.12g}"
        written = {"sku": values["sku"] or "", "description": values["item"] or "", "unit": values["unit"] or ""}
        return {name: value.strip() for name, value in written.items()} | {"quantity": text}


class OrderCheckQuestion(Question):
    """A job, and an order to check against it."""

    takeoff = Object(
        TakeOffQuestion(),
        required=True,
        description="The whole job, as a take-off is asked for; the `given` of a finished one will do.",
    )
    order = Objects(Object(OrderLineFields()), least=1, most=MOST_LINES, description="The order, line by line.")
    order_csv = Pasted(
        description="In place of `order`: a pasted table whose first line heads the columns, a stock number or a "
        "description, the quantity, the unit; with commas, semicolons or tabs.",
        example="sku,quantity,unit\nT1-BB,9,\nCE-25,24,bags",
    )

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        taken, order, pasted = values["takeoff"], values["order"], values["order_csv"]
        if (order is None) == (pasted is None):
            raise OutOfRange("Give either 'order', line by line, or 'order_csv', as it was pasted.", "order")
        return {"job": taken["job"], "offered": taken["offered"], "order": _written(order, pasted)}


def _written(order: tuple[dict[str, Any], ...] | None, pasted: str | None) -> tuple[WrittenLine, ...]:
    if order is not None:
        return tuple(WrittenLine(number, **line) for number, line in enumerate(order, 1))
    with within("order_csv"):
        return pasted_lines(pasted or "")


class Places(AnswerField):
    """A list of whole numbers."""

    def shown(self, value: Any) -> Any:
        return list(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": "array", "items": {"type": "integer"}}


class CheckedRow(Figures):
    """One thing needed or ordered."""

    item = Word("What it is in a bill.")
    name = Word("What it is called.")
    sku = Word("Stock number of the bill's good; of the order's where it isn't needed.", optional=True)
    needed = Share("Gross quantity of the bill, in `unit`.", optional=True)
    ordered = Share("In `unit`; several lines of one thing added up.", optional=True)
    unit = Word("The unit the order used, or its pack; the bill's unit where it used several or none.")
    verdict = Word("enough, short, over, missing, not_needed or cannot_compare.")
    by = Share("How much more or less than needed, in `unit`.", optional=True)
    mend = Rows(PackRow(), description="Packs to add where it is short.")
    mend_price = Money("Price of those packs, where the catalogue has prices.", optional=True)
    because = Word("What else there is to say, or empty.")
    order_lines = Places("Lines of the order it is ordered in.")


class UnreadRow(Figures):
    """A line that couldn't be read; it isn't guessed at, and the rest is checked."""

    line = Tally("Its number: of the pasted text, or in the list, from 1.", of="number")
    text = Word("As it is written.")
    because = Word("Why, and how to write it.")


class ReachFigures(Figures):
    """How far the order goes, in proportion to the job's area; edgings are left out."""

    area_m2 = Figure("Area it covers; none where a line can't be compared.", optional=True)
    share_percent = Figure("Of the job's area.", optional=True)
    runs_out_first = Word("What is used up first.", optional=True)
    sku = Word("Its stock number.", optional=True)


class OrderCheckAnswer(Answer):
    """An order against a job."""

    table = "lines"
    verdict = Word("short, else cannot_compare, else over, else enough: the first that is true of any line.")
    lines = Rows(CheckedRow(), description="What the job needs, in order of work, then what it doesn't.")
    unread = Rows(UnreadRow(), description="Lines and columns that weren't read.")
    mend_price = Money("Price of all the packs to add, where each has one.", optional=True)
    reach = Section(ReachFigures(), description="The other way round: what the order is enough for.")
