"""Queries: the same request as a row of names and texts.

A nested field is named by its dotted path. A name, a text or a missing name that breaks
the query's published schema is malformed (400); what such a schema can't express, such as
the fields that belong to one shape, is unworkable (422).
"""

from dataclasses import dataclass
from typing import Any

from marshmallow import ValidationError

from service.schemas.errors import Impossible, Malformed, Unworkable, leaves, pointer, refusal
from service.schemas.fields import Choice, WireField
from service.schemas.nested import Either, Object, Objects, OneOf
from service.schemas.requests import Request

_UNKNOWN = "There is no such field in a query; lists of objects are JSON only."


@dataclass(frozen=True)
class Parameter:
    """One name of a query: where its value goes and which fields may read it."""

    path: tuple[str, ...]
    readers: tuple[WireField, ...]
    required: bool

    @property
    def name(self) -> str:
        return ".".join(self.path)

    def document(self) -> dict[str, Any]:
        """The parameter in the contract."""
        schemas = [reader.query_document() for reader in self.readers]
        reader = self.readers[0]
        return {
            "name": self.name,
            "in": "query",
            "required": self.required,
            "schema": schemas[0] if len(schemas) == 1 else {"anyOf": schemas},
            **({"description": reader.description} if reader.description else {}),
        }

    def value(self, text: str) -> Any:
        """The JSON value of a text; ValidationError when no reader takes it."""
        for reader in self.readers:
            value = reader.query_value(text)
            try:
                reader.read(value)
            except ValidationError as error:
                wrong = error
                if all(isinstance(message, Impossible) for _, message in leaves(error.messages)):
                    return value
            else:
                return value
        raise wrong


class Query:
    """The query form of a request.

    Parameters
    ----------
    question : Request or OneOf
        What a POST of the same resource takes.
    """

    def __init__(self, question: Request | OneOf) -> None:
        self.parameters: dict[str, Parameter] = {}
        if isinstance(question, OneOf):
            self._add_one_of(question, (), True)
        else:
            self._add_fields(question, (), True)

    def nested(self, pairs: list[tuple[str, str]]) -> dict[str, Any]:
        """The JSON value a query stands for.

        Raises
        ------
        Malformed
            If a name is unknown, repeated or missing, or its text can't be read.
        """
        errors: list[tuple[str, str]] = []
        found: dict[str, Any] = {}
        for name, text in pairs:
            parameter = self.parameters.get(name)
            if parameter is None:
                errors.append((pointer(tuple(name.split("."))), _UNKNOWN))
            elif name in found:
                errors.append((pointer(parameter.path), "Given more than once."))
            else:
                try:
                    found[name] = parameter.value(text)
                except ValidationError as error:
                    found[name] = None
                    errors += [(pointer(parameter.path), str(message)) for _, message in leaves(error.messages)]
        errors += [
            (pointer(parameter.path), "Missing data for required field.")
            for name, parameter in self.parameters.items()
            if parameter.required and name not in found
        ]
        if errors:
            raise Malformed(errors)
        return self._tree(found)

    def _tree(self, found: dict[str, Any]) -> dict[str, Any]:
        tree: dict[str, Any] = {}
        for name, value in found.items():
            *branches, leaf = self.parameters[name].path
            place = tree
            for branch in branches:
                place = place.setdefault(branch, {})
                if not isinstance(place, dict):
                    raise Unworkable([(pointer((branch,)), f"Give '{branch}' as one value or by its parts, not both.")])
            if isinstance(place.get(leaf), dict):
                raise Unworkable([(pointer((leaf,)), f"Give '{leaf}' as one value or by its parts, not both.")])
            place[leaf] = value
        return tree

    def _add_fields(self, schema: Request, path: tuple[str, ...], required: bool) -> None:
        for name, field in schema.fields.items():
            if isinstance(field, WireField):
                self._add(field, (*path, name), required and field.required)

    def _add(self, field: WireField, path: tuple[str, ...], required: bool) -> None:
        match field:
            case Objects():
                pass
            case Object():
                self._add_fields(field.schema, path, required)
            case OneOf():
                self._add_one_of(field, path, required)
            case Either():
                self._add_leaf(field.leaf, path, False)
                self._add(field.other, path, False)
            case _:
                self._add_leaf(field, path, required)

    def _add_one_of(self, field: OneOf, path: tuple[str, ...], required: bool) -> None:
        self._add_leaf(Choice(tuple(field.schemas), required=required), (*path, field.key), required)
        shared = set.intersection(*(set(schema.fields) for schema in field.schemas.values()))
        for schema in field.schemas.values():
            for name, inner in schema.fields.items():
                if name != field.key:
                    self._add(inner, (*path, name), required and name in shared and inner.required)

    def _add_leaf(self, field: WireField, path: tuple[str, ...], required: bool) -> None:
        name = ".".join(path)
        known = self.parameters.get(name)
        readers = known.readers if known else ()
        if not any(reader.query_document() == field.query_document() for reader in readers):
            readers = (*readers, field)
        self.parameters[name] = Parameter(path, readers, required or bool(known and known.required))


def unexpressed(messages: Any) -> Unworkable:
    """The refusal of a query whose every name and text is right, and that still isn't a request."""
    return Unworkable(refusal(messages).errors)
