"""The schemas of a club's files, for editors that complete keys and mark what is wrong."""

from typing import Any

from generator.model.club import Club
from generator.model.fields import ID_PATTERN
from generator.model.kinds import MODELS
from generator.model.wear_row import WearRow
from generator.render.schema.draft7 import DRAFT, record_parts
from generator.render.schema.quantities import quantity_definitions

Plain = dict[str, Any]


def club_schemas() -> dict[str, Plain]:
    """Every kind of file a club has; of the wear log the schema speaks of one line."""
    one = {schema_file(kind.file): _one_record(kind) for kind in (Club, WearRow)}
    many = {schema_file(kind.file): _by_id(kind) for kind in MODELS.values()}
    return dict(sorted((one | many).items()))


def schema_file(data_file: str) -> str:
    """`chains.yaml` is described by `chains.json`."""
    return data_file.rsplit(".", 1)[0] + ".json"


def _one_record(kind: type[Club] | type[WearRow]) -> Plain:
    record, nested = record_parts(kind)
    return _head(kind.file, kind.kind_word) | record | {"definitions": _used(record, nested)}


def _by_id(kind: Any) -> Plain:
    record, nested = record_parts(kind)
    name = kind.__name__
    return {
        **_head(kind.file, kind.kind_word),
        "description": f"{record['description']} One record each, under its id: what is written on it.",
        "type": "object",
        "propertyNames": {"pattern": f"^{ID_PATTERN}$"},
        "additionalProperties": {"$ref": f"#/definitions/{name}"},
        "definitions": {name: record} | _used(record, nested),
    }


def _head(file: str, word: str) -> Plain:
    return {
        "$schema": DRAFT,
        "$id": f"urn:chain-handbook:club:{schema_file(file)}",
        "title": f"{file}: {word}",
    }


def _used(record: Plain, nested: dict[str, Plain]) -> dict[str, Plain]:
    """Only the definitions that are referred to."""
    text = str([record, nested])
    quantities = quantity_definitions()
    return nested | {kind: quantities[kind] for kind in quantities if f"#/definitions/{kind}'" in text}
