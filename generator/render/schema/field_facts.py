"""What a person must know to write one field: the page on the data format and the starter are made of these."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import BaseModel

from generator.render.schema.draft7 import record_parts

HOLDS = {
    "length": "a length with its unit, mm or in",
    "force": "a force with its unit, kN, N or lbf",
    "mass": "a mass with its unit, g, kg or oz",
    "id": "an id: small letters, digits, hyphens",
    "size": "a size code",
    "date": "a date, year-month-day",
    "count": "a whole number",
    "number": "a number, or unknown",
    "source": "a source: id[place]",
    "address": "a whole web address",
}
MAY_BE_UNKNOWN = ("length", "force", "mass", "size", "number")


@dataclass(frozen=True, slots=True)
class FieldFacts:
    """One field as people write it; `kind` is empty for words, choices and blocks."""

    name: str
    required: bool
    description: str
    kind: str
    holds: str
    symbol: str
    choices: tuple[str, ...]
    default: str
    example: str
    is_list: bool


def field_facts(model: type[BaseModel]) -> tuple[FieldFacts, ...]:
    """The required fields first, then the others in the order of the model."""
    record, _ = record_parts(model)
    required = record.get("required", [])
    facts = [_facts(name, name in required, field) for name, field in record["properties"].items()]
    return tuple(sorted(facts, key=lambda fact: not fact.required))


@cache
def choices_of(model: type[BaseModel]) -> Mapping[str, tuple[str, ...]]:
    """What may be chosen, by field; empty where any value may stand."""
    return {fact.name: fact.choices for fact in field_facts(model)}


def _facts(name: str, required: bool, field: dict[str, Any]) -> FieldFacts:
    is_list = any(leaf.get("type") == "array" for leaf in field.get("anyOf", ()))
    leaf = field["anyOf"][1] | {"description": field["description"]} if is_list else field
    kind = leaf.get("x-kind", "")
    choices = _choices(leaf)
    return FieldFacts(
        name=name,
        required=required,
        description=leaf["description"],
        kind=kind,
        holds=_holds(leaf, is_list),
        symbol=leaf.get("x-symbol", ""),
        choices=choices,
        default=str(field.get("default", "")) if not is_list else "",
        example=_example(leaf, choices),
        is_list=is_list,
    )


def _choices(leaf: dict[str, Any]) -> tuple[str, ...]:
    return tuple(leaf["enum"]) if "enum" in leaf else (leaf["const"],) if "const" in leaf else ()


def _holds(leaf: dict[str, Any], is_list: bool) -> str:
    if "enum" in leaf or "const" in leaf:
        return "one of " + ", ".join(_choices(leaf)) if len(_choices(leaf)) > 1 else _choices(leaf)[0]
    if "additionalProperties" in leaf:
        return "a block of names with values"
    if leaf.get("x-free-text"):
        return f"any text, at most {leaf['maxLength']} characters"
    one = HOLDS.get(leaf.get("x-kind", ""), f"a word, at most {leaf.get('maxLength', '')} characters")
    return f"{one}; or several in a list, [a, b]" if is_list else one


def _example(leaf: dict[str, Any], choices: tuple[str, ...]) -> str:
    if choices:
        return choices[0]
    return str(leaf["examples"][0]) if leaf.get("examples") else ""
