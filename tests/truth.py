"""Joints whose true lengths are known, what a caliper reads of them and what a hand feels: for proofs that no bound lies."""

from dataclasses import dataclass, replace
from random import Random
from typing import TypeVar

from generator.model.dataset import Dataset, Part, TrialFacts
from generator.model.quantity import Quantity
from generator.model.record import Record
from generator.model.trials_and_rides import Trial
from tests.clubs import DAY
from tests.joints import base_pieces, dataset_of, nm
from tests.random_joints import RandomJoint

# how far a true length lies off that of a proper joint, mm; most joints are nearly right
OFF = ("0", "0", "0", "0.01", "0.02", "0.05", "0.1", "0.2", "0.4", "0.9")
R = TypeVar("R", bound=Record, covariant=True)
CALIPER = nm("0.02")
# a plate that swims by less is not felt to move
SWIMS = nm("0.05")
LENGTHS = {
    "chain": ("d3", "b2p", "b2b", "b3", "b4", "tc", "h2"),
    "link": ("d", "G", "L", "gw", "gd", "t", "h", "hs", "M"),
    "clip": ("k", "cs", "cm", "csp"),
    "seals": ("s",),
}


@dataclass(frozen=True)
class Told:
    """`truth` has every length exactly and no dry fit; `told` has readings, gaps and what the hand felt."""

    truth: Dataset
    told: Dataset
    place: int


def true_joint(random: Random) -> RandomJoint:
    kind = random.choice(("sealed", "sealed", "plain"))
    fit = random.choice(("slip", "press", "press", "press-to-shoulder"))
    joint = RandomJoint(base_pieces(kind, fit))
    for id_, symbols in LENGTHS.items():
        for symbol in symbols:
            piece = joint.pieces.get(id_)
            if piece is not None and symbol in piece.dims and random.random() < 0.25:
                step = nm(random.choice(OFF)) * random.choice((-1, 1))
                value = max(piece.dims[symbol][1] + step, 0)
                piece.dims[symbol] = (value,) * 3
    side = joint.pieces["link"].dims["t"][1]
    joint.pieces["link"].dims["f"] = (side + nm("0.15") * random.choice((-1, 0, 0, 1)),) * 3
    if "clip" in joint.pieces:
        # what a clip was when new is not what a proof of bounds is about
        joint.pieces["clip"].dims["k0"] = joint.pieces["clip"].dims["k"]
        # any clip and link may meet here, so that nothing is as out of one packet
        joint.pieces["clip"].words["history"] = "off-once"
        joint.pieces["clip"].dims["bow"] = (0, 0, 0)
    return joint


def told(random: Random) -> Told:
    joint = true_joint(random)
    truth = dataset_of(list(joint.pieces.values()))
    place = random.choice((0, 0, nm("0.1"), nm("0.3"), nm("0.7"), -nm("0.1"), -nm("0.3")))
    trial = trial_of(random, truth, place)
    return Told(_placed(truth, place), _with_trial(_read(random, truth), trial), place)


def _placed(truth: Dataset, place: int) -> Dataset:
    """The truth about a pressed plate is where it lies: a dry fit that reads its widths exactly."""
    if truth.links["link"].record.plate_fit != "press":
        return truth
    link, chain = truth.links["link"].dims, truth.chains["chain"].dims
    beside = chain["between_outer_plates"].nominal + 2 * chain["plate_thickness"].nominal
    over = (
        chain["between_outer_plates"].nominal
        + place
        + link["side_plate_thickness"].nominal
        + link["fixed_plate_thickness"].nominal
    )
    record = _record(plate_on="pressed", seals=_seals(truth))
    dims = {
        "width_at_joint": Quantity(over, over, over),
        "width_at_neighbour": Quantity(beside, beside, beside),
    }
    return _with_trial(truth, TrialFacts("truth", record, dims))


def _record(**answers: str) -> Trial:
    return Trial.model_validate({"chain": "chain", "link": "link", "on": DAY.isoformat(), **answers})


def _seals(dataset: Dataset) -> str:
    return "fitted" if dataset.links["link"].record.seals is not None else "none"


def _read(random: Random, truth: Dataset) -> Dataset:
    """Each length with an error of up to the caliper's, or not read at all."""

    def part(one: Part[R]) -> Part[R]:
        dims = {name: _reading(random, q) for name, q in one.dims.items() if random.random() < 0.8}
        return replace(one, dims=dims)

    return replace(
        truth,
        chains={i: part(p) for i, p in truth.chains.items()},
        links={i: part(p) for i, p in truth.links.items()},
        clips={
            i: replace(part(p), dims={**part(p).dims, "bow": Quantity(0, 0, 0)})
            for i, p in truth.clips.items()
        },
        seals={i: part(p) for i, p in truth.seals.items()},
    )


def _reading(random: Random, true: Quantity) -> Quantity:
    if true.nominal < CALIPER or true.nominal < 100_000:
        return true
    read = true.nominal + random.randint(-CALIPER, CALIPER)
    return Quantity(max(read - CALIPER, 0), max(read, 0), read + CALIPER)


def trial_of(random: Random, truth: Dataset, place: int) -> TrialFacts:
    """What a hand feels of the true joint; some of it is not noted."""
    c = {name: q.nominal for name, q in truth.chains["chain"].dims.items()}
    li = {name: q.nominal for name, q in truth.links["link"].dims.items()}
    clip = {name: q.nominal for name, q in truth.clips["clip"].dims.items()}
    fit = truth.links["link"].record.plate_fit
    stop = li["pin_reach"] + li["groove_width"] - clip["thickness"] - li["side_plate_thickness"]
    seat = {"slip": stop, "press": c["between_outer_plates"] + place}.get(fit) or li["shoulder_depth"]
    enters = c["bush_bore"] >= li["pin_diameter"]
    snaps = (
        li["groove_width"] >= clip["thickness"]
        and stop >= max(seat, c["over_bush_ends"])
        and li["groove_diameter"] > clip["mouth"]
    )
    firm = li["groove_diameter"] - clip["mouth"] >= nm("0.30")
    answers = {"enters": _said(enters)}
    if enters:
        answers |= {"plate_on": "pressed" if fit != "slip" else "by-hand", "clip_on": _said(snaps)}
        if snaps:
            answers |= {
                "clip_with": "pliers" if firm else "fingers",
                "bends": _said(seat >= c["over_bush_ends"]),
                "plate_moves": _said(fit == "slip" and stop - _packing(truth, c) > SWIMS),
            }
    kept = {name: answer for name, answer in answers.items() if name == "plate_on" or random.random() < 0.8}
    dims = {}
    if kept.get("plate_on") and (fit != "slip" or snaps) and random.random() < 0.7:
        # a plate that slides lies anywhere between the bush ends and its clip
        lies = seat if fit != "slip" else random.randint(min(c["over_bush_ends"], stop), stop)
        over = lies + li["side_plate_thickness"] + li["fixed_plate_thickness"]
        tip = li["pin_length"] - li["side_plate_thickness"] - lies
        beside = c["between_outer_plates"] + 2 * c["plate_thickness"]
        dims = {
            "width_at_joint": _reading(random, Quantity(over, over, over)),
            "width_at_neighbour": _reading(random, Quantity(beside, beside, beside)),
        }
        if random.random() < 0.5:
            dims["tip_stand_out"] = _reading(random, Quantity(tip, tip, tip))
        if random.random() < 0.5:
            for name, out in _beyond(truth, c, li, seat).items():
                dims[name] = _reading(random, Quantity(out, out, out))
    return TrialFacts("told", _record(seals=_seals(truth), **kept), dims)


def _beyond(truth: Dataset, chain: dict[str, int], link: dict[str, int], seat: int) -> dict[str, int]:
    """How far the joint stands out beyond the riveted heads when it is pushed there; seals hold it in the middle."""
    sealed = _seals(truth) != "none"
    centred = sealed or truth.chains["chain"].record.kind == "plain"
    wide = chain["between_outer_plates"] if centred else chain["over_bush_ends"]
    head = chain["over_riveted_pins"] // 2
    fixed = link["fixed_plate_thickness"] + link["head_stand_out"]
    heads = fixed + (wide // 2 if sealed else seat - wide // 2) - head
    return {
        "tips_beyond_heads": max(link["pin_length"] - wide // 2 - head, 0),
        "heads_beyond_heads": max(heads, 0),
    }


def _packing(truth: Dataset, chain: dict[str, int]) -> int:
    """So wide is what a sliding plate is held by: the seals and the plates between them, else the bush ends."""
    if _seals(truth) == "none":
        return chain["over_bush_ends"]
    own = truth.seals[truth.links["link"].record.seals or ""]
    return chain["over_inner_plates"] + 2 * own.dims["thickness"].nominal


def _said(answer: bool) -> str:
    return "yes" if answer else "no"


def _with_trial(dataset: Dataset, trial: TrialFacts) -> Dataset:
    return replace(dataset, trials={**dataset.trials, trial.id: trial})
