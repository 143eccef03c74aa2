"""The JSON Schema of a dialogue of lines, and of the events that a visit's file holds."""

import json
from collections.abc import Mapping
from typing import Any

from pydantic import TypeAdapter
from pydantic.json_schema import JsonSchemaMode

from helmwright.visit.lines_in import IN_MESSAGE
from helmwright.visit.lines_out import OUT_MESSAGE
from helmwright.visit.wire_form import EVENT_FORM

_TITLE = "helmwright visit"
_KINDS: Mapping[str, tuple[TypeAdapter[Any], str]] = {
    "in": (IN_MESSAGE, "A line that is sent to the program."),
    "out": (OUT_MESSAGE, "A line that the program answers."),
    "event": (EVENT_FORM, "What happened in a visit, as its file and state hold it."),
}
_MODE: JsonSchemaMode = "validation"


def visit_schema() -> Mapping[str, Any]:
    """The schema; a line is held against `#/$defs/in`, `#/$defs/out` or `#/$defs/event`."""
    adapters = [(name, _MODE, adapter) for name, (adapter, _) in _KINDS.items()]
    kinds, whole = TypeAdapter.json_schemas(adapters)
    named = {
        name: {"description": about, **kinds[name, _MODE]} for name, (_, about) in _KINDS.items()
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": _TITLE,
        "oneOf": [{"$ref": "#/$defs/in"}, {"$ref": "#/$defs/out"}],
        "$defs": {**named, **whole["$defs"]},
    }


def visit_schema_text() -> str:
    """The schema as the file in the documentation holds it."""
    return json.dumps(visit_schema(), indent=2, ensure_ascii=False) + "\n"
