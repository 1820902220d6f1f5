"""The outside figures and the shipped size codes, side by side for the checks of this folder."""

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from generator.model.shipped import InstrumentKind, Size
from generator.model.written import Written

HERE = Path(__file__).parent
DATA = HERE.parents[1] / "data"

# symbols of the standards against the names of the records
FIELD = {
    "p": "pitch",
    "d1": "roller_diameter",
    "b1": "inner_width",
    "d2": "pin_diameter",
    "d3": "bush_bore",
    "b2": "over_inner_plates",
    "b3": "between_outer_plates",
    "h2": "plate_height",
    "plate": "plate_thickness",
    "Fu": "tensile",
}


@cache
def published() -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load((HERE / "published.yaml").read_text(encoding="utf-8"))
    return loaded


def _shipped(name: str) -> dict[str, Any]:
    # text only, as the project's own loader sees it
    loaded: dict[str, Any] = yaml.load((DATA / name).read_text(encoding="utf-8"), yaml.BaseLoader)
    return loaded


@cache
def sizes() -> dict[str, Size]:
    raw = _shipped("sizes/motorcycle.yaml") | _shipped("sizes/industrial.yaml")
    return {code: Size.model_validate(record) for code, record in raw.items()}


@cache
def instruments() -> dict[str, InstrumentKind]:
    raw = _shipped("instruments.yaml")
    return {kind: InstrumentKind.model_validate(record) for kind, record in raw.items()}


def exact(figure: float | str) -> Fraction:
    """A figure as printed, without the error of a binary float."""
    return Fraction(str(figure))


def in_mm(written: Written) -> Fraction:
    assert len(written.readings) == 1
    return written.readings[0] / 1_000_000


def mm(code: str, symbol: str) -> Fraction:
    """The value used for a size code."""
    written = getattr(sizes()[code], FIELD[symbol])
    assert written is not None, f"{code} has no {FIELD[symbol]}"
    return in_mm(written)


def others_mm(code: str, symbol: str) -> set[Fraction]:
    """The contradicting values kept beside it."""
    return {in_mm(o.value) for o in sizes()[code].other_readings if o.field == FIELD[symbol]}
