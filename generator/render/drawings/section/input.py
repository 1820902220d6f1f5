"""What a section drawing is made from, and what stands in where nothing was measured."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Literal

from generator.model.quantity import NM_PER_MM, Quantity

PlateFit = Literal["slip", "press", "press-to-shoulder", "unknown"]
Closure = Literal["clip", "rivet", "screw"]
Seals = Literal["fitted", "left-out", "packed", "none"]


@dataclass(frozen=True, slots=True)
class SectionDimensions:
    """A chain, a connecting link, its clip and what lies between the plates; None where not known."""

    bush_bore: Quantity | None = None
    over_inner_plates: Quantity | None = None
    over_bush_ends: Quantity | None = None
    between_outer_plates: Quantity | None = None
    over_riveted_pins: Quantity | None = None
    plate_thickness: Quantity | None = None
    pin_diameter: Quantity | None = None
    pin_reach: Quantity | None = None
    clip_stop: Quantity | None = None
    pin_length: Quantity | None = None
    shoulder_depth: Quantity | None = None
    groove_width: Quantity | None = None
    groove_diameter: Quantity | None = None
    side_plate_thickness: Quantity | None = None
    clip_thickness: Quantity | None = None
    seal_thickness: Quantity | None = None
    washer_thickness: Quantity | None = None
    bike_clearance: Quantity | None = None
    plate_fit: PlateFit = "unknown"
    closure: Closure = "clip"
    seals: Seals = "none"


@dataclass(frozen=True, slots=True)
class Value:
    """A dimension as drawn, in mm; one that is not read is drawn dashed, where a typical joint has it."""

    mm: float
    read: bool


# Typical dimensions in mm, from memory: they only give a missing part a place to be drawn, dashed.
_SEALED: Mapping[str, float] = {
    "bush_bore": 5.30, "over_inner_plates": 10.95, "over_bush_ends": 11.25, "between_outer_plates": 13.05,
    "over_riveted_pins": 19.4, "plate_thickness": 2.1, "pin_diameter": 5.24, "pin_reach": 15.2,
    "clip_stop": 15.3, "pin_length": 17.3, "shoulder_depth": 13.05, "groove_width": 1.1,
    "groove_diameter": 4.0, "side_plate_thickness": 2.1, "clip_thickness": 1.0, "seal_thickness": 1.28,
    "washer_thickness": 0.9, "bike_clearance": 4.0,
}  # fmt: skip
_PLAIN: Mapping[str, float] = {
    **_SEALED, "over_inner_plates": 10.6, "over_bush_ends": 10.7, "between_outer_plates": 11.0,
    "over_riveted_pins": 17.3, "pin_reach": 13.1, "clip_stop": 13.2, "pin_length": 15.1, "shoulder_depth": 11.0,
}  # fmt: skip
# known widths tell how far the typical joint must be stretched to stand beside them
_WIDTHS = ("over_inner_plates", "over_bush_ends", "between_outer_plates", "over_riveted_pins", "pin_reach")


def quantities(dims: SectionDimensions) -> dict[str, Quantity | None]:
    """The dimensions by name; a negative one is not a dimension and counts as not known."""
    found = {f.name: getattr(dims, f.name) for f in fields(dims)}
    return {
        name: value if value is None or value.nominal >= 0 else None
        for name, value in found.items()
        if value is None or isinstance(value, Quantity)
    }


def values(dims: SectionDimensions) -> dict[str, Value]:
    """Every dimension with a number to draw it by."""
    known = quantities(dims)
    typical = _PLAIN if dims.seals == "none" else _SEALED
    pairs = [(q.nominal / NM_PER_MM, typical[name]) for name in _WIDTHS if (q := known[name])]
    factor = sum(a for a, _ in pairs) / sum(b for _, b in pairs) if pairs else 1.0
    return {name: _value(q, typical[name] * (factor or 1.0)) for name, q in known.items()}


def _value(quantity: Quantity | None, stand_in: float) -> Value:
    if quantity is None:
        return Value(stand_in, read=False)
    return Value(quantity.nominal / NM_PER_MM, quantity.evidence in ("measured", "stated"))
