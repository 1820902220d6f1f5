"""One record as data: what was written, with every length as an interval in millimetres."""

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from functools import cache
from typing import Any

from pydantic import BaseModel

from generator.model.quantity import MN_PER_KN, NM_PER_MM, Quantity, outward
from generator.model.written import Written
from generator.render.schema.draft7 import Plain, record_parts

# kind of value -> the unit in the name of the key, and base units in one of it
UNITS = {"length": ("mm", NM_PER_MM), "force": ("kn", MN_PER_KN), "mass": ("g", 1_000)}


def record_json(record: BaseModel, dims: Mapping[str, Quantity]) -> Plain:
    """Every field of the model, under the key it has in the file."""
    kinds = field_kinds(type(record))
    return {
        info.alias or name: _value(kinds[info.alias or name], getattr(record, name), dims.get(name))
        for name, info in type(record).model_fields.items()
    }


@cache
def field_kinds(model: type[BaseModel]) -> Mapping[str, str]:
    """Key -> kind of value, empty for words and blocks."""
    record, _ = record_parts(model)
    return {name: str(field.get("x-kind", "")) for name, field in record["properties"].items()}


def quantity_json(kind: str, quantity: Quantity, as_written: str | None) -> Plain:
    """An interval with its origin; the keys name the unit."""
    unit, base = UNITS[kind]
    ends = {"low": quantity.low, "nominal": quantity.nominal, "high": quantity.high}
    return {
        **{f"{end}_{unit}": round(value / base, 6) for end, value in ends.items()},
        "evidence": quantity.evidence,
        "source": quantity.source,
        "as_written": as_written,
    }


def _value(kind: str, value: object, quantity: Quantity | None) -> Any:
    if kind in UNITS or isinstance(value, Written):
        return _quantity(kind or _kind_of(value), value, quantity)
    if kind == "number":
        return None if value in (None, "unknown") else float(str(value))
    return _plain(value)


def _quantity(kind: str, value: object, quantity: Quantity | None) -> Plain | None:
    """A dimension as the engine uses it; one that is not a reading stands for itself."""
    written = value if isinstance(value, Written) else None
    if quantity is not None:
        return quantity_json(kind, quantity, written.text if written else None)
    if written is None or written.is_unknown or written.form == "compared":
        return None
    return quantity_json(kind, _as_it_stands(written), written.text) | {"evidence": written.evidence}


def _as_it_stands(written: Written) -> Quantity:
    mean = sum(written.readings, Fraction(0)) / len(written.readings)
    half = written.plus_minus or Fraction(0)
    low, nominal, high = outward(mean - half, mean, mean + half)
    return Quantity(low, nominal, high, source=written.source)


def _kind_of(value: object) -> str:
    """Where a field may hold one of several kinds of quantity."""
    unit = value.unit if isinstance(value, Written) else None
    return {"kN": "force", "g": "mass"}.get(unit or "", "length")


def _plain(value: object) -> Any:
    if isinstance(value, BaseModel):
        return record_json(value, {})
    if isinstance(value, Mapping):
        return {str(key): _plain(inner) for key, inner in value.items()}
    if isinstance(value, tuple):
        return [_plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, date) else value
