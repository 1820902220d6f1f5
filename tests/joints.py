"""Joints for the engine tests: dimensions by symbol and words in, a small dataset out; and joints at random.

Lengths here are whole nanometres, forces whole millinewtons: (low, nominal, high).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from generator.model.chain_parts import Chain, Clip, Link, SealSet
from generator.model.club import Club
from generator.model.dataset import Dataset, Part, Shelf
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.record import Record
from generator.model.tools_and_bikes import Bike
from tests.clubs import DAY, KIND_OF, shelf
from tests.engine import FIELDS

Ends = tuple[int, int, int]
Dims = Mapping[str, Ends]
MODELS: dict[str, type[Record]] = {"chain": Chain, "link": Link, "clip": Clip, "seal": SealSet, "bike": Bike}
NAMES = {kind: {symbol: name for name, symbol in names.items()} for kind, names in FIELDS.items()} | {
    "bike": {"clr": "clearance_clip_side", "clo": "clearance_other_side"}
}  # fmt: skip
NAMES["seal"]["w"] = "thickness"


@dataclass
class Piece:
    """One part of a joint: the words of its record, its dimensions by symbol."""

    kind: str
    id: str
    words: dict[str, Any]
    dims: dict[str, Ends] = field(default_factory=dict)
    from_memory: bool = False


def part_of(piece: Piece) -> Part[Any]:
    evidence = "from-memory" if piece.from_memory else "measured"
    dims = {
        NAMES[piece.kind][symbol]: Quantity(*ends, evidence=evidence)  # type: ignore[arg-type]
        for symbol, ends in piece.dims.items()
    }
    record = MODELS[piece.kind].model_validate(piece.words)
    return Part(piece.kind, piece.id, record, dims)


def dataset_of(pieces: Sequence[Piece], pitches: Mapping[str, int] | None = None) -> Dataset:
    """A club of these parts; `pitches` gives a size code another pitch than the published one."""
    by_kind: dict[str, dict[str, Part[Any]]] = {kind: {} for kind in MODELS}
    for piece in sorted(pieces, key=lambda each: each.id):
        by_kind[piece.kind][piece.id] = part_of(piece)
    club = Club.model_validate({"name": "Joints of the tests", "id": "tests"})
    parts: dict[str, Any] = {stem: by_kind.get(kind, {}) for stem, kind in KIND_OF.items()}
    return Dataset(
        club, DAY, "tests", "tests", _with_pitches(pitches or {}),
        **parts, trials={}, rides={}, overrides={},
    )  # fmt: skip


def _with_pitches(pitches: Mapping[str, int]) -> Shelf:
    sizes = dict(shelf().sizes)
    for code, pitch in pitches.items():
        sizes[code] = replace(sizes[code], dims={**sizes[code].dims, "pitch": Quantity(pitch, pitch, pitch)})
    return replace(shelf(), sizes=sizes)


def nm(text: str) -> int:
    """Millimetres as a number of nanometres (kilonewtons as millinewtons)."""
    whole, _, decimals = text.partition(".")
    return int(whole) * NM_PER_MM + int((decimals + "000000")[:6])


def _exact(values: Mapping[str, str]) -> dict[str, Ends]:
    return {symbol: (nm(text),) * 3 for symbol, text in values.items()}


# the worked chain and link of the measuring notes and their plain cousins; all their checks are proper
# (common practice, no source)
CHAINS = {
    "sealed": {"d3": "5.30", "b2p": "10.95", "b2b": "11.25", "b3": "13.05", "b4": "19.40", "tc": "2.10", "h2": "15.00", "el": "0.004",
               "Fc": "30.0"},
    "plain": {"d3": "5.30", "b2p": "10.60", "b2b": "10.60", "b3": "11.00", "b4": "17.30", "tc": "2.00", "h2": "15.00", "el": "0.004",
              "Fc": "30.0"},
}  # fmt: skip
LINKS = {
    "sealed": {"d": "5.24", "G": "15.20", "L": "17.30", "gw": "1.10", "gd": "3.90", "t": "2.10", "h": "15.00", "f": "2.10", "hs": "1.00",
               "Fl": "30.0"},
    "plain": {"d": "5.24", "G": "13.10", "L": "15.10", "gw": "1.10", "gd": "3.90", "t": "2.00", "h": "15.00", "f": "2.00", "hs": "1.00",
              "Fl": "30.0"},
}  # fmt: skip
CLIP = {"k": "1.00", "k0": "1.00", "cs": "3.80", "cm": "3.40", "csp": "15.875", "bow": "0"}
SHOULDER = {"sealed": "13.10", "plain": "11.05"}
# rivet pins stand out by 1.1 mm beyond the side plate
RIVET_LENGTH = {"sealed": "16.25", "plain": "14.10"}
SEAL, WASHER = "1.28", "0.87"


def base_pieces(
    kind: str = "sealed", plate_fit: str = "press", closure: str = "clip", made_for: str | None = None
) -> dict[str, Piece]:
    """A joint that is proper in every check, exactly known, its seals in and washers at hand."""
    made_for = made_for or kind
    link = _exact(LINKS[made_for])
    if plate_fit == "press-to-shoulder":
        link["M"] = (nm(SHOULDER[made_for]),) * 3
    if closure != "clip":
        link["L"] = (nm(RIVET_LENGTH[made_for]),) * 3
        link["hd"] = (nm("1.50"),) * 3
        del link["G"], link["gw"], link["gd"]
    own_joint = {"slip": "clip-slip"}.get(plate_fit, "clip-press")
    seal = "O" if kind == "sealed" else "none"
    words = {
        "size_code": "520",
        "closure": closure,
        "plate_fit": plate_fit,
        "made_for": made_for,
        "pin_kind": "hollow",
        "condition": "new",
        "half_link": "no",
        "flared": "no",
    }
    chain = {"size_code": "520", "kind": kind, "seal": seal, "own_joint": own_joint, "own_link": "own",
             "state": "as-made", "rub_marks": "no"}  # fmt: skip
    pieces = [
        Piece("chain", "chain", chain, _exact(CHAINS[kind])),
        Piece("link", "link", words, link),
        Piece("link", "own", {**words, "size_code": "520"}, dict(link)),
        Piece("bike", "bike", {"chain": "chain", "front_teeth": "14", "rear_teeth": "48", "pitches": "112",
                               "joint_in_manual": "clip"},
              _exact({"clr": "4.00", "clo": "4.00"})),
        Piece("seal", "washers", {"shape": "washer"}, _exact({"w": WASHER})),
    ]  # fmt: skip
    if closure == "clip":
        pieces.append(Piece("clip", "clip", {"history": "new"}, _exact(CLIP)))
        words["clip"] = "clip"
    if made_for == "sealed":
        pieces.append(Piece("seal", "seals", {"shape": "O", "covers_bush": "yes"}, _exact({"s": SEAL})))
        words["seals"] = "seals"
    return {piece.id: piece for piece in pieces}
