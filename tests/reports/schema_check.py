"""A small check of a document against the part of JSON Schema that ours uses."""

from collections.abc import Iterator, Mapping
from typing import Any

TYPES: dict[str, type | tuple[type, ...]] = {
    "object": dict,
    "array": list,
    "string": str,
    "boolean": bool,
    "integer": int,
    "number": (int, float),
    "null": type(None),
}
USED = {
    "$schema", "$defs", "$ref", "type", "properties", "required", "additionalProperties",
    "items", "prefixItems", "minItems", "maxItems", "minimum", "exclusiveMinimum", "maximum",
    "anyOf", "oneOf", "discriminator", "enum", "const", "title", "description", "default",
}  # fmt: skip


def faults(value: Any, schema: Mapping[str, Any], root: Mapping[str, Any]) -> list[str]:
    """Everything in which the value differs from the schema."""
    return list(_faults(value, schema, root, "$"))


def _faults(
    value: Any, schema: Mapping[str, Any], root: Mapping[str, Any], path: str
) -> Iterator[str]:
    unknown = set(schema) - USED
    assert not unknown, f"the check does not know {unknown}"
    if "$ref" in schema:
        yield from _faults(value, root["$defs"][schema["$ref"].rsplit("/", 1)[1]], root, path)
    if "anyOf" in schema and all(list(_faults(value, s, root, path)) for s in schema["anyOf"]):
        yield f"{path}: none of the forms"
    if "oneOf" in schema:
        yield from _one_of(value, schema, root, path)
    yield from _plain(value, schema, path)
    if isinstance(value, dict):
        yield from _object(value, schema, root, path)
    if isinstance(value, list):
        first = schema.get("prefixItems", ())
        for at, item in enumerate(value):
            form = first[at] if at < len(first) else schema.get("items", {})
            yield from _faults(item, form, root, f"{path}[{at}]")


def _one_of(
    value: Any, schema: Mapping[str, Any], root: Mapping[str, Any], path: str
) -> Iterator[str]:
    """Faults under exactly one form; where a field names the form, those of the named one."""
    kind = schema.get("discriminator", {})
    named = value.get(kind.get("propertyName")) if isinstance(value, dict) else None
    form = kind.get("mapping", {}).get(named)
    if form is not None:
        yield from _faults(value, {"$ref": form}, root, path)
    elif sum(not list(_faults(value, each, root, path)) for each in schema["oneOf"]) != 1:
        yield f"{path}: not one of the forms"


def _plain(value: Any, schema: Mapping[str, Any], path: str) -> Iterator[str]:
    kind = schema.get("type")
    if kind and (
        not isinstance(value, TYPES[kind]) or (kind != "boolean" and isinstance(value, bool))
    ):
        yield f"{path}: {value!r} is no {kind}"
        return
    if "const" in schema and value != schema["const"]:
        yield f"{path}: not {schema['const']!r}"
    if "enum" in schema and value not in schema["enum"]:
        yield f"{path}: {value!r} is none of {schema['enum']}"
    if "minimum" in schema and value < schema["minimum"]:
        yield f"{path}: {value} is below {schema['minimum']}"
    if "exclusiveMinimum" in schema and value <= schema["exclusiveMinimum"]:
        yield f"{path}: {value} is not above {schema['exclusiveMinimum']}"
    if "maximum" in schema and value > schema["maximum"]:
        yield f"{path}: {value} is above {schema['maximum']}"
    if "minItems" in schema and len(value) < schema["minItems"]:
        yield f"{path}: too few"
    if "maxItems" in schema and len(value) > schema["maxItems"]:
        yield f"{path}: too many"


def _object(
    value: Mapping[str, Any], schema: Mapping[str, Any], root: Mapping[str, Any], path: str
) -> Iterator[str]:
    known = schema.get("properties", {})
    yield from (f"{path}: {key} is missing" for key in set(schema.get("required", ())) - set(value))
    if schema.get("additionalProperties") is False:
        yield from (f"{path}: {key} is not known" for key in set(value) - set(known))
    others = schema.get("additionalProperties")
    for key in set(value):
        form = known.get(key, others)
        if isinstance(form, dict):
            yield from _faults(value[key], form, root, f"{path}.{key}")
