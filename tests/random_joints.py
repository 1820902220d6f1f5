"""Joints at random: proper ones with a few things changed, many of them moved exactly onto an edge."""

from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from tests import oracle
from tests.engine import Way, dims_of, reckoned, words_of
from tests.joints import Piece, base_pieces, dataset_of

# how far a dimension is moved, mm: small steps about the edges of the fit, seldom a large one
STEPS = ("0.02", "0.05", "0.07", "0.1", "0.1", "0.15", "0.2", "0.3", "0.4", "0.7", "1.5")
# what can be moved so that a form lies exactly on an edge: dimensions of the link, its clip and its seals
MOVERS = {
    "hold": ("link", "G"), "d": ("link", "d"), "L": ("link", "L"), "M": ("link", "M"), "h": ("link", "h"),
    "gd": ("link", "gd"), "Fl": ("link", "Fl"), "hd": ("link", "hd"), "gw": ("link", "gw"), "k": ("clip", "k"),
    "cs": ("clip", "cs"), "cm": ("clip", "cm"), "csp": ("clip", "csp"), "b2p": ("chain", "b2p"), "t": ("link", "t"),
}  # fmt: skip


@dataclass
class RandomJoint:
    """The pieces of a club whose chain `chain` and link `link` are looked at."""

    pieces: dict[str, Piece]
    pitches: dict[str, int] = field(default_factory=dict)

    def dataset(self) -> Dataset:
        return dataset_of(list(self.pieces.values()), self.pitches)


def often(random: Random, percent: int) -> bool:
    return random.randint(1, 100) <= percent


def random_joint(random: Random) -> RandomJoint:
    kind = random.choice(("sealed", "plain"))
    plate_fit = random.choice(("slip", "press", "press", "press-to-shoulder"))
    closure = random.choice(("clip", "clip", "clip", "rivet", "screw"))
    if closure != "clip" and plate_fit == "slip":
        plate_fit = "press"
    other = "plain" if kind == "sealed" else "sealed"
    made_for = other if often(random, 10) else kind
    joint = RandomJoint(base_pieces(kind, plate_fit, closure, made_for))
    if not often(random, 25):
        del joint.pieces["washers"]
    _change_words(random, joint)
    if often(random, 25):
        _strain(random, joint)
    else:
        _move_dimensions(random, joint)
    _second_parts(random, joint)
    _widen(random, joint)
    if often(random, 60):
        _put_on_an_edge(random, joint)
    _forget(random, joint)
    return joint


def _change_words(random: Random, joint: RandomJoint) -> None:
    chain, link = joint.pieces["chain"], joint.pieces["link"]
    changes: list[tuple[int, Piece | None, str, tuple[str, ...]]] = [
        (15, joint.pieces.get("clip"), "history", ("off-once", "off-once", "never-off", "bent", "unknown")),
        (
            9,
            link,
            "condition",
            (
                "fitted-once",
                "fitted-once",
                "fitted-twice",
                "cracked",
                "worn",
                "drilled",
                "modified",
                "unknown",
            ),
        ),
        (2, link, "half_link", ("yes",)),
        (8, link, "size_code", ("520H", "525", "530", "428", "unknown")),
        (15, chain, "own_joint", ("clip-slip", "clip-press", "rivet", "endless", "unknown")),
        (15, chain, "seal", ("X", "unknown")),
        (15, chain, "state", ("unknown",)),
        (10, chain, "rub_marks", ("yes", "unknown")),
        (10, chain, "letters", ("AB 520",)),
        (20, link, "letters", ("AB 520",)),
        (6, link, "came_with", ("chain",)),
        (6, link, "half_link", ("unknown",)),
        (10, joint.pieces["bike"], "joint_in_manual", ("rivet", "endless", "unknown")),
        (5, joint.pieces["bike"], "clip_because", ("the club says so",)),
        (10, chain, "in_use", ("yes", "no")),
        (10, chain, "own_seals", ("fitted", "left-out", "unknown")),
        (10, chain, "plates_no_higher", ("yes", "no")),
        (5, link, "flared", ("yes", "unknown")),
        (1, chain, "state", ("modified",)),
        (15, chain, "own_link", ("link",)),
        (15, joint.pieces.get("seals"), "covers_bush", ("no", "unknown")),
        (30, link, "pin_kind", ("solid", "unknown")),
    ]
    for percent, piece, name, words in changes:
        if piece is not None and often(random, percent):
            piece.words[name] = random.choice(words)
    if often(random, 10) and "seals" in joint.pieces:
        joint.pieces["seals"].from_memory = True
    if often(random, 10):
        joint.pieces["own"].words.pop("seals", None)
    if often(random, 10):
        joint.pitches["520H"] = round(15.875 * NM_PER_MM) + random.choice((-1, 1)) * random.choice(
            (200_000, 200_001)
        )
        link.words["size_code"] = "520H"


# each alone leaves get-home or last-resort; four groups of get-home add up to last-resort
STRAINS = (
    ("link", "d", -100_000), ("link", "d", -230_000), ("link", "h", 400_000), ("link", "t", -300_000),
    ("link", "Fl", -10_000_000), ("clip", "k0", 500_000), ("clip", "k", -200_000), ("clip", "cs", 300_000),
    ("link", "G", 150_000), ("link", "L", -300_000), ("seals", "s", -120_000), ("seals", "s", 300_000),
)  # fmt: skip


def _strain(random: Random, joint: RandomJoint) -> None:
    """Several small faults at once."""
    for id_, symbol, step in random.sample(STRAINS, random.choice((1, 3, 5))):
        if id_ in joint.pieces and symbol in joint.pieces[id_].dims:
            _shift(joint.pieces[id_], symbol, step)


def _move_dimensions(random: Random, joint: RandomJoint) -> None:
    for _ in range(random.choice((0, 1, 1, 2, 3, 5))):
        piece = random.choice([joint.pieces[id_] for id_ in sorted(joint.pieces)])
        symbol = random.choice(sorted(piece.dims))
        step = round(Fraction(random.choice(STEPS)) * NM_PER_MM) * random.choice((-1, 1))
        _shift(piece, symbol, step)


def _second_parts(random: Random, joint: RandomJoint) -> None:
    """A second clip, a bow, a clip stop, a second bike."""
    clip = joint.pieces.get("clip")
    if clip is not None and often(random, 20):
        joint.pieces["clip-2"] = Piece(
            "clip", "clip-2", {"history": random.choice(("new", "off-once"))}, dict(clip.dims)
        )
    if clip is not None and often(random, 15):
        bow = random.choice((100_000, 100_000, 200_000, 310_000))
        clip.dims["bow"] = (bow,) * 3
    if clip is not None and often(random, 20):
        link = joint.pieces["link"]
        stop = link.dims["G"][1] + link.dims["gw"][1] - clip.dims["k"][1] + random.choice((0, 0, 30_000))
        link.dims["C"] = (stop - 40_000, stop, stop + 40_000)
        if often(random, 50):
            del link.dims["G"]
    if often(random, 20):
        bike = joint.pieces["bike"]
        room = random.choice((1_500_000, 2_000_000, 3_500_000))
        joint.pieces["bike-2"] = Piece(
            "bike", "bike-2", dict(bike.words), {"clr": (room - 100_000, room, room + 100_000)}
        )


def _shift(piece: Piece, symbol: str, step: int) -> bool:
    low, nominal, high = piece.dims[symbol]
    if low + step < 0:
        return False
    piece.dims[symbol] = (low + step, nominal + step, high + step)
    return True


def _widen(random: Random, joint: RandomJoint) -> None:
    """Exact, as with a caliper (the same ± everywhere) or each its own."""
    width = random.choice((0, 0, 0, 10_000, -1))
    for id_ in sorted(joint.pieces):
        piece = joint.pieces[id_]
        for symbol in sorted(piece.dims):
            low, nominal, high = piece.dims[symbol]
            down, up = (random.randint(0, 40_000), random.randint(0, 40_000)) if width < 0 else (width, width)
            piece.dims[symbol] = (max(low - down, 0), nominal, high + up)


def ways_of(joint: RandomJoint) -> list[Way]:
    """The options with the link's own clip, in order of preference."""
    pieces = joint.pieces
    clip = "clip" if "clip" in pieces else None
    seals = pieces["link"].words.get("seals")
    found = [("fitted", seals), ("left-out", None)] if seals else [("none", None)]
    found += [("packed", "washers")] if "washers" in pieces else []
    seat = "neighbours" if pieces["link"].words["plate_fit"] == "press" else "made"
    return [Way("chain", "link", clip, word, seal_set, seat) for word, seal_set in found]


def _put_on_an_edge(random: Random, joint: RandomJoint) -> None:
    """Move one dimension so that one end of one form of one edge is exactly zero."""
    dataset = joint.dataset()
    way = random.choice(ways_of(joint))
    words = words_of(dataset, way)
    if oracle.refused(dims_of(dataset, way), words):
        return
    checks = reckoned(dataset, way).checks
    dims = next(iter(checks.values())).over or oracle.settled(dims_of(dataset, way), words)
    forms = [form for name in sorted(checks) for edge in checks[name].edges for form in edge.forms]
    form = random.choice(forms)
    end = form.over(dims)[random.choice((0, 1, 2))]
    movable = [name for name in sorted(form.terms) if name in MOVERS and abs(form.terms[name]) == 1]
    if end is None or not movable:
        return
    name = random.choice(movable)
    id_, symbol = MOVERS[name]
    piece = joint.pieces.get(id_)
    step = -end / form.terms[name] * NM_PER_MM
    if piece is not None and symbol in piece.dims and step.denominator == 1:
        _shift(piece, symbol, int(step))


def _forget(random: Random, joint: RandomJoint) -> None:
    """Now and then something is not known: a dimension, the room on the bike, a whole part."""
    for id_, symbol, percent in (
        ("bike", "clr", 15), ("bike-2", "clr", 40), ("bike", "clo", 15), ("link", "h", 8), ("link", "hs", 5), ("link", "f", 15), ("chain", "el", 12), ("link", "Fl", 30), ("chain", "h2", 15), ("clip", "k0", 15), ("own", "L", 8),
    ):  # fmt: skip
        if id_ in joint.pieces and often(random, percent):
            joint.pieces[id_].dims.pop(symbol, None)
    if often(random, 5):
        piece = joint.pieces[random.choice(("chain", "link"))]
        piece.dims.pop(random.choice(sorted(piece.dims)))
    if often(random, 3):
        joint.pieces[random.choice(("chain", "link"))].dims.clear()
