"""The written forms of lengths, forces and masses as JSON Schema definitions."""

from typing import Any

from generator.model.fields import SOURCE_PATTERN
from generator.model.length import BLOCK_KEYS
from generator.model.quantity import EVIDENCE_ORDER
from generator.model.units import FORCES, LENGTHS, MASSES, Units

Plain = dict[str, Any]
UNITS = {"length": LENGTHS, "force": FORCES, "mass": MASSES}
# every form that people may write
EXAMPLES = {
    "length": [
        "14.92 mm",
        "14.92 ± 0.03 mm",
        "0.587 in",
        "5/8 in",
        "14.90, 14.92, 14.93 mm",
        "goes 5.2 mm, not 5.4 mm",
        "longer by 0.3 mm",
        "same",
        "unknown",
    ],
    "force": ["26.4 kN", "unknown"],
    "mass": ["14 g", "0.5 oz", "unknown"],
}


def quantity_definitions() -> dict[str, Plain]:
    return {kind: _quantity(units, EXAMPLES[kind]) for kind, units in UNITS.items()}


def _quantity(units: Units, examples: list[str]) -> Plain:
    value = {"type": "string", "pattern": _pattern(units)}
    block = {
        "is": value | {"description": f"The {units.what} itself"},
        "from": {"enum": list(EVIDENCE_ORDER), "description": "How it is known"},
        "plus_minus": value | {"description": "Half the width, with its unit"},
        "source": {
            "type": "string",
            "pattern": f"^{SOURCE_PATTERN}$",
            "description": "Where it comes from: id[place]",
        },
    }
    assert tuple(block) == BLOCK_KEYS
    told = "what goes and what does not, or a difference; " if units is LENGTHS else ""
    forms = [value, {"enum": ["same"]}] if units is LENGTHS else [value]
    return {
        "description": f"A {units.what} with its unit, {units.choice}; several readings on one line; {told}or unknown",
        "examples": examples,
        "anyOf": [
            *forms,
            {"type": "object", "properties": block, "required": ["is"], "additionalProperties": False},
        ],
    }


def _pattern(units: Units) -> str:
    """Coarse on purpose: `handbook check` knows the grammar and says more than a pattern can."""
    return f"^(unknown|.*[0-9]\\s*({'|'.join(units.accepted)}))$"
