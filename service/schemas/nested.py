"""Fields of a request that hold other fields: objects, lists of them, and one of several."""

from collections.abc import Callable, Mapping
from typing import Any

from marshmallow import ValidationError

from service.paving.errors import within
from service.schemas.fields import Resolve, WireField


class OneOf(WireField):
    """One of several objects, told apart by the word under `key`."""

    def __init__(self, key: str, schemas: Mapping[str, Any], **kwargs: Any) -> None:
        self.key, self.schemas = key, dict(schemas)
        super().__init__(**kwargs)

    def read(self, value: Any) -> dict[str, Any]:
        if type(value) is not dict:
            raise ValidationError(f"Must be an object with '{self.key}'.")
        word = value.get(self.key)
        if type(word) is not str or word not in self.schemas:
            raise ValidationError({self.key: [f"Must be one of {', '.join(self.schemas)}."]})
        loaded: dict[str, Any] = self.schemas[word].load(value)
        return loaded

    def shown(self, value: dict[str, Any]) -> Any:
        return self.schemas[value[self.key]].shown(value)

    def made(self, value: dict[str, Any]) -> Any:
        return self.schemas[value[self.key]].made(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        refs = {word: resolve(schema) for word, schema in self.schemas.items()}
        mapping = {word: ref["$ref"] for word, ref in refs.items()}
        return {"oneOf": list(refs.values()), "discriminator": {"propertyName": self.key, "mapping": mapping}}


class Either(WireField):
    """One value, or an object in its place.

    Parameters
    ----------
    leaf : WireField
        Reads the value when it isn't an object.
    other : OneOf or Object
        Reads the object.
    measured : callable
        Makes the trade's value of what `leaf` read.
    """

    def __init__(
        self, leaf: WireField, other: "OneOf | Object", measured: Callable[[float], Any], **kwargs: Any
    ) -> None:
        self.leaf, self.other, self.measured = leaf, other, measured
        super().__init__(**kwargs)

    def read(self, value: Any) -> Any:
        return self.other.read(value) if isinstance(value, dict) else self.leaf.read(value)

    def shown(self, value: Any) -> Any:
        return self.other.shown(value) if isinstance(value, dict) else self.leaf.shown(value)

    def made(self, value: Any) -> Any:
        return self.other.made(value) if isinstance(value, dict) else self.measured(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        inner = self.other.document(resolve)
        return {"oneOf": [self.leaf.document(resolve), *inner.get("oneOf", [inner])]}


class Object(WireField):
    """A nested object."""

    def __init__(self, schema: Any, **kwargs: Any) -> None:
        self.schema = schema
        super().__init__(**kwargs)

    def read(self, value: Any) -> Any:
        if type(value) is not dict:
            raise ValidationError("Must be an object.")
        return self.schema.load(value)

    def shown(self, value: Any) -> Any:
        return self.schema.shown(value)

    def made(self, value: Any) -> Any:
        return self.schema.made(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return dict(resolve(self.schema))


class Objects(WireField):
    """A list of objects."""

    def __init__(self, item: WireField, most: int, least: int = 0, **kwargs: Any) -> None:
        self.item, self.least, self.most = item, least, most
        super().__init__(**kwargs)

    def read(self, value: Any) -> list[Any]:
        if type(value) is not list:
            raise ValidationError("Must be a list.")
        if not self.least <= len(value) <= self.most:
            raise ValidationError(f"Must hold {self.least} to {self.most} entries.")
        read, errors = [], {}
        for k, entry in enumerate(value):
            try:
                read.append(self.item.read(entry))
            except ValidationError as error:
                errors[k] = error.messages
        if errors:
            raise ValidationError(errors)
        return read

    def shown(self, value: list[Any]) -> list[Any]:
        return [self.item.shown(entry) for entry in value]

    def made(self, value: list[Any]) -> Any:
        made = []
        for k, entry in enumerate(value):
            with within(k):
                made.append(self.item.made(entry))
        return tuple(made)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {
            "type": "array",
            "items": self.item.document(resolve),
            "minItems": self.least,
            "maxItems": self.most,
        }
