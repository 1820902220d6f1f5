"""A pydantic model as plain JSON Schema draft-07, telling the truth about what the strict reader accepts."""

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

Plain = dict[str, Any]
DRAFT = "http://json-schema.org/draft-07/schema#"
# kinds of value with a definition of their own
QUANTITIES = ("length", "force", "mass")


def record_parts(model: type[BaseModel]) -> tuple[Plain, dict[str, Plain]]:
    """The schema of one record, and its nested models by name."""
    made = model.model_json_schema(by_alias=True, ref_template="#/definitions/{model}")
    nested = made.pop("$defs", {})
    return converted(made), {name: converted(schema) for name, schema in sorted(nested.items())}


def converted(schema: Mapping[str, Any]) -> Plain:
    """One object schema with its properties as people write them."""
    plain = {key: value for key, value in schema.items() if key not in ("title", "properties")}
    fields = {name: written(field) for name, field in schema.get("properties", {}).items()}
    return plain | {"properties": fields}


def written(field: Mapping[str, Any]) -> Plain:
    """One field; a value left out is left out, never null, so null is not offered."""
    outer = {key: value for key, value in field.items() if key not in ("anyOf", "title")}
    if "default" in outer:
        outer |= _default(outer.pop("default"))
    inner = [leaf for leaf in field.get("anyOf", ()) if leaf != {"type": "null"}]
    if not inner:
        return leaf_schema(outer)
    if len(inner) == 1:
        return leaf_schema(inner[0] | outer)
    return outer | {"anyOf": [leaf_schema(leaf) for leaf in inner]}


def _default(value: object) -> Plain:
    if isinstance(value, bool):
        return {"default": "yes" if value else "no"}
    return {} if value is None else {"default": value}


def leaf_schema(leaf: Mapping[str, Any]) -> Plain:
    """One kind of value.  Editors read `520` as a number where our reader sees text, so text may be both."""
    plain = {key: value for key, value in leaf.items() if key != "title"}
    if plain.get("x-kind") in QUANTITIES:
        return _referring(plain)
    if "$ref" in plain:
        return plain
    if plain.get("type") == "array":
        return _listing(plain)
    if "propertyNames" in plain:
        return _by_name(plain)
    if plain.get("type") == "string" and "enum" not in plain and "format" not in plain:
        return plain | {"type": ["string", "number"]}
    return plain


def _referring(plain: Plain) -> Plain:
    """Beside `$ref` draft-07 ignores everything, so the reference stands in an allOf."""
    rest = {key: value for key, value in plain.items() if key != "type"}
    return rest | {"allOf": [{"$ref": f"#/definitions/{plain['x-kind']}"}]}


def _listing(plain: Plain) -> Plain:
    """A list of single values may be written as the one value."""
    items = leaf_schema(plain["items"])
    rest = {key: value for key, value in plain.items() if key not in ("type", "items")}
    if "$ref" in items or items.get("type") == "object":
        return rest | {"type": "array", "items": items}
    return rest | {"anyOf": [{"type": "array", "items": items}, items]}


def _by_name(plain: Plain) -> Plain:
    """Values under names of the writer's choice, or of a closed list."""
    names = {key: value for key, value in plain["propertyNames"].items() if key in ("enum", "pattern")}
    if "patternProperties" in plain:
        pattern, values = next(iter(plain["patternProperties"].items()))
        rest = {key: value for key, value in plain.items() if key != "patternProperties"}
        return rest | {
            "propertyNames": names | {"pattern": pattern},
            "additionalProperties": leaf_schema(values),
        }
    return plain | {
        "propertyNames": names,
        "additionalProperties": leaf_schema(plain["additionalProperties"]),
    }
