"""What the schemas of all published files share: draft, name, data version and day."""

from collections.abc import Mapping
from typing import Any

from generator.render.schema.draft7 import DRAFT, Plain


def published(
    name: str, description: str, body: Mapping[str, Any], definitions: Mapping[str, Any] | None = None
) -> Plain:
    """A file that says what it is, from which data, for which day; nothing beside what is named here."""
    head = {
        "schema": {"const": name, "description": "Name and version of this format"},
        "data_version": {
            "type": "string",
            "pattern": "^[0-9a-f]{12}$",
            "description": "Changes when a value of the club or of the shipped data changes",
        },
        "as_of": {"type": "string", "format": "date", "description": "The day the file speaks for"},
    }
    return whole(name, description, head | dict(body), definitions)


def whole(
    name: str, description: str, properties: Mapping[str, Any], definitions: Mapping[str, Any] | None = None
) -> Plain:
    """An object with exactly these properties, all of them there."""
    schema = {
        "$schema": DRAFT,
        "$id": f"urn:chain-handbook:published:{name.replace('/', ':')}",
        "title": name,
        "description": description,
        **closed(properties),
    }
    return schema | ({"definitions": dict(definitions)} if definitions else {})


def closed(properties: Mapping[str, Any], optional: tuple[str, ...] = ()) -> Plain:
    """An object that holds these properties and no others."""
    return {
        "type": "object",
        "properties": dict(properties),
        "required": sorted(name for name in properties if name not in optional),
        "additionalProperties": False,
    }
