"""What the digits of a motorcycle size code say, and whether the published size agrees."""

import re
from dataclasses import dataclass

from generator.model.dataset import SizeCodeEntry
from generator.model.quantity import NM_PER_INCH

# the rule as a gauge maker's page gives it, and an engineer's note with it
EIGHTH_NM = NM_PER_INCH // 8
EIGHTIETH_NM = NM_PER_INCH // 80
RULE_SOURCE = "gauge-page[chain numbers]"
# tables print the least width, which the standards set up to 0.125 mm under the nominal inch width
LEAST_UNDER_NOMINAL_NM = 130_000
_CODE = re.compile(r"([0-9])([0-9]{2})[A-Z]{0,2}")


@dataclass(frozen=True, slots=True)
class NamedSize:
    """One digit group: how many parts of an inch it counts, the length by name and the published one."""

    digits: str
    parts: int
    by_name: int
    published: int | None
    agrees: bool | None


@dataclass(frozen=True, slots=True)
class Naming:
    """A three-digit code read by the rule: the first digit gives the pitch, the others the inner width."""

    pitch: NamedSize
    width: NamedSize

    @property
    def follows(self) -> bool:
        return bool(self.pitch.agrees) and self.width.agrees is not False


def naming_of(size: SizeCodeEntry) -> Naming | None:
    """None for codes of another kind, such as 25H, and for industrial chain."""
    match = _CODE.fullmatch(size.code)
    if match is None or size.record.family != "motorcycle":
        return None
    pitch, width = int(match[1]) * EIGHTH_NM, int(match[2]) * EIGHTIETH_NM
    published_pitch, published_width = _nominal(size, "pitch"), _nominal(size, "inner_width")
    return Naming(
        NamedSize(match[1], 8, pitch, published_pitch, published_pitch == pitch),
        NamedSize(match[2], 80, width, published_width, _width_agrees(width, published_width)),
    )


def _width_agrees(by_name: int, published: int | None) -> bool | None:
    return None if published is None else 0 <= by_name - published <= LEAST_UNDER_NOMINAL_NM


def _nominal(size: SizeCodeEntry, field: str) -> int | None:
    quantity = size.dims.get(field)
    return quantity.nominal if quantity else None
