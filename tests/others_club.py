"""Small clubs for the tests of clips, seals, side plates, strips and tools."""

from collections.abc import Mapping
from typing import Any

from generator.compute.others.result import OtherFits, PartFit
from generator.compute.others.table import other_fits
from generator.model.dataset import Dataset
from tests.clubs import exactly, unchecked

Fields = Mapping[str, str | None]
# not lengths
WORDS = frozenset(
    ("size_code", "kind", "seal", "own_joint", "own_link", "state", "elongation", "closure", "plate_fit", "made_for",
     "clip", "seals", "condition", "pin_kind", "half_link", "history", "shape", "covers_bush", "count", "from_link",
     "cut_from", "ridden_since", "letters", "came_with", "rub_marks", "joint_in_manual", "flared", "plate_on", "plates_level",
     "in_use", "in_use_since", "looked_on", "own_seals", "clip_seated", "bends_freely", "seals_whole", "plate_loose",
     "clip_with", "seats", "play", "pitches", "does", "takes", "key", "name", "chain", "link", "on", "enters", "clip_on", "bends", "tensile", "front_teeth", "rear_teeth")
)  # fmt: skip

CHAIN = {
    "size_code": "520", "kind": "sealed", "seal": "O", "own_joint": "clip-press", "own_link": "own",
    "bush_bore": "5.30", "over_inner_plates": "10.95", "over_bush_ends": "11.25", "between_outer_plates": "13.05",
    "over_riveted_pins": "19.4", "plate_thickness": "2.1", "plate_height": "15.0", "roller_diameter": "10.15", "inner_width": "6.35",
    "elongation": "0.4", "state": "as-made", "rub_marks": "no",
}  # fmt: skip
# closed and looked at since, with nothing found
RUNS = {
    "in_use": "yes", "in_use_since": "2027-02-01", "looked_on": "2027-02-20", "own_seals": "fitted", "plates_level": "yes",
    "clip_seated": "yes", "bends_freely": "yes", "seals_whole": "yes", "plate_loose": "no",
}  # fmt: skip
LINK = {
    "size_code": "520", "closure": "clip", "plate_fit": "press", "made_for": "sealed", "condition": "new", "half_link": "no", "clip": "c10", "seals": "o128",
    "pin_diameter": "5.24", "pin_reach": "15.20", "groove_width": "1.10", "groove_diameter": "3.90",
    "pin_length": "17.3", "side_plate_thickness": "2.1", "side_plate_height": "15.0",
    "fixed_plate_thickness": "2.1", "head_stand_out": "0.9", "flared": "no",
}  # fmt: skip
CLIP = {
    "history": "new", "thickness": "1.00", "thickness_new": "1.00", "seat_width": "3.80", "mouth": "3.40",
    "pin_spacing": "15.875",
}  # fmt: skip
SEAL = {"shape": "O", "thickness": "1.28", "covers_bush": "yes"}
PLATE = {
    "size_code": "520", "plate_fit": "press", "condition": "fitted-once", "from_link": "own", "thickness": "2.1",
    "height": "15.0", "hole_spacing": "15.875",
}  # fmt: skip
STRIP = {
    "size_code": "520", "kind": "sealed", "seal": "O", "pitches": "3", "pitch": "15.875", "roller_diameter": "10.15",
    "inner_width": "6.35", "bush_bore": "5.30", "over_inner_plates": "10.95", "over_bush_ends": "11.25",
    "between_outer_plates": "13.05", "plate_thickness": "2.1", "elongation": "0.1",
}  # fmt: skip
BREAKER = {"does": "breaker", "takes": "520", "key": "key", "jaw_opening": "24", "pin_diameter": "3.8"}
FILE = {"does": "file", "count": "1"}
KEY = {"does": "key", "count": "1"}
BIKE = {
    "chain": "base",
    "front_teeth": "14",
    "rear_teeth": "48",
    "pitches": "112",
    "clearance_clip_side": "4.0",
    "clearance_other_side": "9.0 ± 0.000001 mm",
    "joint_in_manual": "clip",
}


def record(base: Mapping[str, str], changes: Fields, plus_minus: str = "") -> dict[str, str]:
    """The base with some fields changed; None takes a field away."""
    merged = {name: value for name, value in {**base, **changes}.items() if value is not None}
    return {name: value if name in WORDS else _length(value, plus_minus) for name, value in merged.items()}


def _length(value: str, plus_minus: str) -> str:
    if value == "unknown" or "mm" in value:
        return value
    return f"{value} ± {plus_minus or '0.000001'} mm"


def raw_club(plus_minus: str = "", /, **changes: Fields) -> dict[str, Any]:
    """One part of each kind; `chain={"bush_bore": "5.4"}` changes one of them."""
    bases: dict[str, tuple[str, str, Mapping[str, str]]] = {
        "chain": ("chains", "base", CHAIN), "link": ("links", "own", LINK), "clip": ("clips", "c10", CLIP),
        "seal": ("seals", "o128", SEAL), "plate": ("plates", "plate", PLATE), "strip": ("strips", "strip", STRIP),
        "tool": ("tools", "breaker", BREAKER), "bike": ("bikes", "bike", BIKE),
    }  # fmt: skip
    raw: dict[str, Any] = {}
    for kind, (stem, id_, base) in bases.items():
        raw[stem] = {id_: record(base, changes.get(kind, {}), plus_minus)}
    raw["tools"]["key"] = record(KEY, changes.get("key", {}))
    raw["tools"]["file"] = record(FILE, changes.get("file", {}))
    return raw


def exact_club(**changes: Fields) -> Dataset:
    return exactly(unchecked(raw_club(**changes)))


def fits(**changes: Fields) -> OtherFits:
    return other_fits(exact_club(**changes))


def decided(fit: PartFit) -> tuple[str, str | None]:
    """Word and deciding check."""
    return fit.word, fit.deciding


def slack_mm(fit: PartFit) -> float:
    assert fit.slack is not None
    return round(fit.slack / 1_000_000, 6)
