"""Requests: schemas whose objects can be repeated as understood and made into values of the trade."""

from functools import cached_property
from typing import Any

from marshmallow import RAISE, Schema, ValidationError

from service.paving.errors import within
from service.schemas.errors import UNKNOWN
from service.schemas.fields import Flag, WireField
from service.schemas.nested import Either, Object, Objects, OneOf

_NESTED = (Object, Objects, OneOf, Either)


class Request(Schema):
    """An object of a request. Unknown fields are refused."""

    class Meta:
        unknown = RAISE

    error_messages = {"type": "Must be an object.", "unknown": UNKNOWN}

    @cached_property
    def _wire(self) -> list[tuple[str, WireField]]:
        wire = [(name, field) for name, field in self.fields.items() if isinstance(field, WireField)]
        return sorted(wire, key=lambda entry: entry[0] == "workings")

    @cached_property
    def _nested(self) -> list[tuple[str, WireField]]:
        return [(name, field) for name, field in self._wire if isinstance(field, _NESTED)]

    def load(self, data: Any, **options: Any) -> Any:
        """Read an object field by field.

        The same as marshmallow's own, which a test holds it to, without what no request here
        uses: hooks, partial loading, names that differ on the wire.
        """
        if type(data) is not dict:
            raise ValidationError({"_schema": [self.error_messages["type"]]})
        errors: dict[str, Any] = {name: [UNKNOWN] for name in data if name not in self.fields}
        read: dict[str, Any] = {}
        for name, field in self._wire:
            if name not in data:
                read[name] = field.load_default
                if field.required:
                    errors[name] = [field.error_messages["required"]]
            elif data[name] is None:
                errors[name] = [field.error_messages["null"]]
            else:
                try:
                    read[name] = field.read(data[name])
                except ValidationError as error:
                    errors[name] = error.messages
        if errors:
            raise ValidationError(errors)
        return self.usual(read)

    def usual(self, data: dict[str, Any]) -> dict[str, Any]:
        """What was read with the defaults that hang on other fields; overridden where there are any."""
        return data

    def shown(self, data: dict[str, Any]) -> dict[str, Any]:
        """What was understood, defaults filled in, as a client would write it."""
        return {name: field.shown(data[name]) for name, field in self._wire if data.get(name) is not None}

    def made(self, data: dict[str, Any]) -> Any:
        """What the trade is handed for it."""
        values = dict(data)
        for name, field in self._nested:
            if values.get(name) is not None:
                with within(name):
                    values[name] = field.made(values[name])
        return self.make(values)

    def make(self, values: dict[str, Any]) -> Any:
        """A value of the trade from the fields; overridden where the trade has one."""
        return values


class Question(Request):
    """A whole request: an object that may ask for the workings to be left out."""

    workings = Flag(default=True, description="Whether the answer shows how each figure was worked.")
