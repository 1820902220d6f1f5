"""How two size codes stand to each other, from their published dimensions."""

from typing import Literal

from generator.model.dataset import SizeCodeEntry
from generator.model.quantity import NM_PER_MM

SizeRelation = Literal[
    "same",
    "heavy-on-standard",
    "standard-on-heavy",
    "wider-on-narrower",
    "narrower-on-wider",
    "other-roller",
    "other-pitch",
]

# published sizes print nominal or guaranteed values, which differ by up to 0.13 mm (width) and
# 0.2 mm (roller) within one code; real steps between codes are 0.5 mm (roller), 1.4 mm (width)
# and 0.7 mm (pitch) or more
SAME_WIDTH_NM = NM_PER_MM // 2
SAME_ROLLER_NM = NM_PER_MM * 3 // 10
SAME_PITCH_NM = NM_PER_MM // 5


def size_relation(link: SizeCodeEntry, chain: SizeCodeEntry) -> SizeRelation:
    """How a link of one size code stands to a chain of another."""
    if _apart(link, chain, "pitch", SAME_PITCH_NM):
        return "other-pitch"
    if _base(link) == _base(chain):
        return _series_relation(link, chain)
    if width := _apart(link, chain, "inner_width", SAME_WIDTH_NM):
        if _apart(link, chain, "roller_diameter", SAME_ROLLER_NM):
            return "other-roller"
        return "wider-on-narrower" if width > 0 else "narrower-on-wider"
    return "other-roller"


def _series_relation(link: SizeCodeEntry, chain: SizeCodeEntry) -> SizeRelation:
    if link.record.series == chain.record.series:
        return "same"
    return "heavy-on-standard" if link.record.series == "heavy" else "standard-on-heavy"


def _base(size: SizeCodeEntry) -> str:
    return size.record.base_code or size.code


def _apart(link: SizeCodeEntry, chain: SizeCodeEntry, field: str, tolerance: int) -> int:
    """Difference of nominals in nm where it exceeds the tolerance, else 0; 0 where not published."""
    if field not in link.dims or field not in chain.dims:
        return 0
    difference = link.dims[field].nominal - chain.dims[field].nominal
    return difference if abs(difference) > tolerance else 0
