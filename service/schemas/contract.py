"""The parts of the contract: JSON Schemas made from the same fields that read and write."""

from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin

from service.schemas.answers import Answer, AssumptionRow, CautionRow
from service.schemas.fields import Quantity, Resolve, WireField
from service.schemas.figures import AnswerField, Figures
from service.schemas.nested import OneOf
from service.schemas.requests import Request
from service.schemas.workings import WorkingRow

PROBLEM = {
    "type": "object",
    "description": "An RFC 9457 problem.",
    "required": ["type", "title", "status", "detail", "errors"],
    "properties": {
        "type": {"type": "string"},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "detail": {"type": "string"},
        "errors": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["pointer", "detail"],
                "properties": {
                    "pointer": {"type": "string", "description": "RFC 6901 pointer of the field at fault."},
                    "detail": {"type": "string", "description": "What is wrong, why, and how to mend it."},
                },
            },
        },
    },
}


def field_document(field: WireField | AnswerField, resolve: Resolve) -> dict[str, Any]:
    """A field's JSON Schema with its sentence and its default."""
    document = field.document(resolve)
    sentences = [field.description] if field.description else []
    if isinstance(field, Quantity):
        sentences.append(f"From {field.bounds()}.")
    if sentences:
        document["description"] = " ".join(sentences)
    # A default that is an object makes client generators drop the operation.
    if isinstance(field, WireField) and field.default is not None and not isinstance(field.default, dict):
        document["default"] = field.default
    return document


def _wire2properties(self: Any, field: Any, ret: dict[str, Any], **kwargs: Any) -> dict[str, Any]:
    """How apispec's converter is told of our fields; what it guessed of the default is taken back."""
    if not isinstance(field, WireField | AnswerField):
        return {}
    ret.pop("default", None)
    return field_document(field, self.resolve_nested_schema)


class Parts:
    """The document under way, and references into its components.

    Parameters
    ----------
    title, version, description : str
        What heads the document.
    """

    def __init__(self, title: str, version: str, **head: Any) -> None:
        plugin = MarshmallowPlugin()
        self.spec = APISpec(title=title, version=version, openapi_version="3.1.0", plugins=[plugin], **head)
        assert plugin.converter is not None
        plugin.converter.add_attribute_function(_wire2properties)  # type: ignore[no-untyped-call]
        self._resolve: Resolve = plugin.converter.resolve_nested_schema
        self.spec.components.schema("Problem", component=PROBLEM)

    def question(self, question: Request | OneOf) -> dict[str, Any]:
        """The schema of what a resource is asked."""
        return question.document(self._resolve) if isinstance(question, OneOf) else dict(self._resolve(question))

    def answer(self, answer: Answer, question: dict[str, Any] | None) -> dict[str, Any]:
        """The schema of what a resource answers."""
        name = type(answer).__name__
        properties = self._properties(answer)
        required = [key for key, _, field in answer.plan if not field.absent]
        if question is not None:
            properties["given"] = {"description": "The request as understood, defaults filled in.", **question}
            properties["assumptions"] = self._list(AssumptionRow())
            properties["cautions"] = self._list(CautionRow())
            properties["workings"] = self._list(WorkingRow())
            required += ["given", "assumptions", "cautions"]
        component = {"type": "object", "required": required, "properties": properties}
        self.spec.components.schema(name, component=component)
        return {"$ref": f"#/components/schemas/{name}"}

    def _properties(self, schema: Figures) -> dict[str, Any]:
        return {key: field_document(field, self._resolve) for key, _, field in schema.plan}

    def _list(self, schema: Figures) -> dict[str, Any]:
        return {"type": "array", "items": self._resolve(schema)}
