"""The schemas of published records, made from the same models as the files they come from."""

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

from generator.model.quantity import EVIDENCE_ORDER
from generator.render.schema.draft7 import QUANTITIES, Plain, record_parts
from generator.render.schema.envelope import closed, published

UNIT_NAMES = {"length": ("mm", "millimetres"), "force": ("kn", "kilonewtons"), "mass": ("g", "grams")}
CLUB = {"type": "string", "description": "Short id of the club"}


def list_schema(name: str, model: type[BaseModel], extra: Mapping[str, Any] | None = None) -> Plain:
    """A file with one list of records, sorted by id; `extra` are keys beside the model's own."""
    record, nested = record_parts(model)
    identity = {"id": {"type": "string", "description": "Its id, never used again for another"}}
    items = closed(identity | dict(extra or {}) | fields(record))
    body = {
        "club": CLUB,
        name: {"type": "array", "items": items, "description": record.get("description", "")},
    }
    return _file_schema(name, record, nested, body)


def single_schema(name: str, model: type[BaseModel]) -> Plain:
    """A file with one record."""
    record, nested = record_parts(model)
    body = {"club": closed(fields(record))}
    return _file_schema(name, record, nested, body)


def _file_schema(name: str, record: Plain, nested: Mapping[str, Any], body: Plain) -> Plain:
    """Only the definitions that are referred to go with it."""
    definitions = {name: closed(fields(schema)) for name, schema in nested.items()}
    text = str([body, definitions])
    units = {kind: quantity(*UNIT_NAMES[kind]) for kind in QUANTITIES if f"#/definitions/{kind}'" in text}
    return published(f"{name}/1", record.get("description", ""), body, definitions | units)


def fields(record: Mapping[str, Any]) -> Plain:
    """Every field of a record as it is published."""
    required = record.get("required", ())
    return {
        name: _described(field, published_field(field, name in required))
        for name, field in record["properties"].items()
    }


def published_field(field: Mapping[str, Any], required: bool) -> Plain:
    nullable = not required and "default" not in field
    kind = field.get("x-kind", "")
    if kind in QUANTITIES:
        return {"anyOf": [{"$ref": f"#/definitions/{kind}"}, {"type": "null"}]}
    if kind == "number":
        return {"type": ["number", "null"]}
    if kind == "yes-no":
        return {"type": ["boolean", "null"] if nullable else "boolean"}
    if "anyOf" in field:
        return _several(field)
    if "additionalProperties" in field:
        return _by_name(field, nullable)
    return _single(field, nullable)


def _several(field: Mapping[str, Any]) -> Plain:
    """A list, or a quantity of one of several kinds."""
    lists = [leaf for leaf in field["anyOf"] if leaf.get("type") == "array"]
    if lists:
        return {"type": "array", "items": _single(lists[0]["items"], False)}
    return {"anyOf": [*(published_field(leaf, True) for leaf in field["anyOf"]), {"type": "null"}]}


def _by_name(field: Mapping[str, Any], nullable: bool) -> Plain:
    inner = field["additionalProperties"]
    values = inner if "$ref" in inner else published_field(inner, True)
    return {"type": ["object", "null"] if nullable else "object", "additionalProperties": values}


def _single(field: Mapping[str, Any], nullable: bool) -> Plain:
    if "$ref" in field:
        return {"anyOf": [{"$ref": field["$ref"]}, {"type": "null"}]} if nullable else {"$ref": field["$ref"]}
    if "const" in field or "enum" in field:
        words = list(field.get("enum", [field.get("const")]))
        return {"enum": [*words, None] if nullable else words}
    if field.get("type") == "array":
        return {"type": "array", "items": _single(field["items"], False)}
    kind = "integer" if field.get("type") == "integer" else "string"
    format_ = {"format": field["format"]} if "format" in field else {}
    return {"type": [kind, "null"] if nullable else kind} | format_


def _described(field: Mapping[str, Any], made: Plain) -> Plain:
    kept = {key: field[key] for key in ("description", "x-symbol") if key in field}
    return made | kept


def quantity(unit: str, words: str) -> Plain:
    """An interval with its origin."""
    ends = {
        f"{end}_{unit}": {"type": "number", "description": f"{text}, in {words}"}
        for end, text in (("low", "At least"), ("nominal", "As read"), ("high", "At most"))
    }
    origin = {
        "evidence": {
            "enum": [*EVIDENCE_ORDER, None],
            "description": "How it is known; null: not a reading, its record says where it comes from",
        },
        "source": {"type": ["string", "null"], "description": "id[place] of a source"},
        "as_written": {"type": ["string", "null"], "description": "As its author wrote it; null: worked out"},
    }
    return closed(ends | origin)
