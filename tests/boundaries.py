"""A joint exactly on every limit, one nanometre inside it and one outside; and a joint for every word."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from itertools import product

from generator.model.dataset import Dataset, TrialFacts
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.trials_and_rides import Trial
from tests import oracle
from tests.engine import Way, dims_of, reckoned
from tests.joints import Ends, base_pieces, nm
from tests.random_joints import RandomJoint, ways_of

# symbol of a form -> the part and dimension that moves it
MOVERS = {
    "hold": ("link", "G"), "d": ("link", "d"), "L": ("link", "L"), "M": ("link", "M"), "h": ("link", "h"),
    "gd": ("link", "gd"), "Fl": ("link", "Fl"), "hd": ("link", "hd"), "gw": ("link", "gw"), "t": ("link", "t"),
    "hs": ("link", "hs"),
    "k": ("clip", "k"), "cs": ("clip", "cs"), "cm": ("clip", "cm"), "csp": ("clip", "csp"), "b2p": ("chain", "b2p"),
    "b3": ("chain", "b3"), "b2b": ("chain", "b2b"), "w": ("washers", "w"),
}  # fmt: skip
# another value of one dimension, so that each of two forms of a limit gets its turn to govern
TURNS: tuple[tuple[str, str, str] | None, ...] = (
    None, ("bike", "clr", "2.40"), ("bike", "clr", "9.00"), ("seals", "s", "0.50"), ("seals", "s", "1.10"),
    ("chain", "b2b", "11.75"), ("chain", "b3", "12.00"), ("chain", "b3", "11.15"), ("washers", "w", "0.30"),
    ("clip", "k0", "1.60"), ("clip", "bow", "0.10"), ("own", "L", "16.50"), ("own", "L", "19.50"),
)  # fmt: skip


@dataclass(frozen=True)
class Boundary:
    """Where a limit lies: the check, the option, the rungs on the limit and one nanometre outside."""

    check: str
    way: Way
    on: tuple[int, int]
    beyond: tuple[int, int]
    joints: tuple[tuple[int, RandomJoint], ...]


# beside the chain, on the clip side
ROOMS = ("known", "unknown", "own")
PLATE_FITS = ("slip", "press", "press-to-shoulder")
# on the limit, one nanometre inside, one outside
SIDES = (0, 1, -1)


def bases() -> Iterator[tuple[tuple[str, ...], str, RandomJoint]]:
    """(kind of joint, what is known of the room, joint): proper where it can be, with each turn."""
    kinds = [
        (kind, plate_fit, closure, made_for)
        for kind, plate_fit, closure, made_for in product(
            ("sealed", "plain"),
            PLATE_FITS,
            ("clip", "rivet", "screw"),
            ("sealed", "plain"),
        )
        if (closure == "clip" or plate_fit != "slip")
        # of the links of the other kind two are enough to meet every limit
        and (made_for == kind or (kind, plate_fit) in (("plain", "slip"), ("sealed", "press")))
    ]
    for kind, turn, room in product(kinds, TURNS, ROOMS):
        if room != "known" and turn is not None and turn[0] != "own":
            continue
        joint = _with_room(RandomJoint(base_pieces(*kind)), room)
        if (turn is not None and not _turned(joint, *turn)) or _looks_sealed(joint):
            continue
        yield kind, room, joint


def _with_room(joint: RandomJoint, room: str) -> RandomJoint:
    if room != "known":
        del joint.pieces["bike"].dims["clr"]
    if room == "own":
        joint.pieces["chain"].words["own_link"] = "link"
    return joint


def _looks_sealed(joint: RandomJoint) -> bool:
    """A plain chain with more room than 0.6 mm between its plates is refused: no check of it is told."""
    chain = joint.pieces["chain"]
    return chain.words["kind"] == "plain" and chain.dims["b3"][0] - chain.dims["b2b"][2] > nm("0.6")


def _turned(joint: RandomJoint, id_: str, symbol: str, value: str) -> bool:
    piece = joint.pieces.get(id_)
    if piece is None or (symbol not in piece.dims and symbol != "bow"):
        return False
    piece.dims[symbol] = _exact(nm(value))
    return True


def _exact(value: int) -> Ends:
    return (value, value, value)


# what the limits of a check depend on, beside its own forms
DEPENDS_ON = {
    "stick-out": ("seals", "chain"),
    "stick-out-unread": ("seals", "chain", "room"),
    "float": ("seals", "chain"),
    "clip-goes-on-without-seals": ("seals",),
    "squeeze": ("plate",),
    "backing": ("plate",),
    "packing-room": ("plate",),
    "flare-stand-out": ("plate", "closure"),
    "hollow-depth": ("plate",),
    "clip-entry": ("bow",),
    "stick-out-other": ("seals", "chain", "plate"),
    "stick-out-other-unread": ("seals", "chain", "plate", "room"),
    "place": ("plate", "closure"),
    "pin-entry": ("chain",),
}


@cache
def boundaries() -> dict[str, Boundary]:
    """By label; one for each limit of each check and kind of joint, wherever it decides the rung."""
    found: dict[str, Boundary] = {}
    for kind, room, joint in bases():
        dataset = joint.dataset()
        for way in ways_of(joint):
            # its own joint, but not as made: the limit is how far it stands out itself and moves along with it
            if room == "own" and way.seals not in ("fitted", "none"):
                continue
            dims = dims_of(dataset, way)
            about = {"seals": way.seals, "chain": kind[0], "plate": kind[1], "closure": kind[2], "room": room}
            about["bow"] = "bowed" if "bow" in dims else "flat"
            for name, check in reckoned(dataset, way).checks.items():
                by_kind = " ".join(about[each] for each in DEPENDS_ON.get(name, ()))
                for text, form in {_text(f): f for edge in check.edges for f in edge.forms}.items():
                    label = f"{name} {by_kind} {text}"
                    if label not in found and (boundary := _on(joint, name, check, form, way)):
                        found[label] = boundary
    return found


def _text(form: oracle.Lin) -> str:
    return "".join(f"{float(value):+g}{name}" for name, value in sorted(form.terms.items()) if value)


def _on(joint: RandomJoint, name: str, check: oracle.Check, form: oracle.Lin, way: Way) -> Boundary | None:
    """The joint moved onto the form's zero, if the rung of the check changes there."""
    value = form.over(check.over)[1]
    if value is None:
        return None
    ranges = [[each.over(check.over) for each in edge.forms] for edge in check.edges]
    for symbol in (
        s for s in sorted(form.terms, key=lambda s: (s != "hs", s)) if s in MOVERS and abs(form.terms[s]) == 1
    ):
        sign = int(form.terms[symbol])
        step = -value * sign * NM_PER_MM
        if step.denominator != 1:
            continue
        steps = [int(step) + side * sign for side in SIDES]
        on, inside, beyond = (_rungs(check, ranges, symbol, each) for each in steps)
        moved = [_moved(joint, symbol, each) for each in steps]
        told = all(each is not None and not _looks_sealed(each) for each in moved)
        if on == inside != beyond and told:
            joints = tuple((side, each) for side, each in zip(SIDES, moved, strict=True) if each is not None)
            return Boundary(name, way, on, beyond, joints)
    return None


def _rungs(
    check: oracle.Check, ranges: Sequence[Sequence[oracle.Slack]], symbol: str, step: int
) -> tuple[int, int]:
    """Its rungs when a symbol moves by a step in nanometres, from the ranges of its forms where they are now."""
    moved = [
        edge.of(
            [
                _shifted(each, form.terms.get(symbol, Fraction(0)) * step / NM_PER_MM)
                for form, each in zip(edge.forms, some, strict=True)
            ]
        )
        for edge, some in zip(check.edges, ranges, strict=True)
    ]
    return oracle.rungs_over(check.edges, moved)


def _shifted(slack: oracle.Slack, by: Fraction) -> oracle.Slack:
    low, middle, high = (None if end is None else end + by for end in slack)
    return low, middle, high


def _moved(joint: RandomJoint, symbol: str, step: int) -> RandomJoint | None:
    id_, name = MOVERS[symbol]
    piece = joint.pieces.get(id_)
    if piece is None or name not in piece.dims or piece.dims[name][1] + step < 0:
        return None
    changed = replace(piece, dims={**piece.dims, name: _exact(piece.dims[name][1] + step)})
    return RandomJoint({**joint.pieces, id_: changed}, dict(joint.pitches))


@cache
def pitch_clubs() -> dict[str, Dataset]:
    """The pitch is that of the size code, so that a code with another pitch stands for it."""
    clubs = {}
    for sign, beyond in product((-1, 1), (-1, 0, 1)):
        joint = RandomJoint(base_pieces())
        joint.pieces["link"].words["size_code"] = "520H"
        joint.pitches["520H"] = nm("15.875") + sign * (nm("0.20") + beyond)
        clubs[f"pitch {sign} {beyond}"] = joint.dataset()
    return clubs


# (part, word, values) beyond those of the boundaries
WORDS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("clip", "history", ("new", "never-off", "off-once", "bent", "unknown")),
    ("link", "condition", ("new", "fitted-once", "cracked", "worn", "drilled")),
    ("link", "half_link", ("yes",)),
    ("link", "size_code", ("520H", "525", "530", "532", "428")),
    ("link", "pin_kind", ("solid", "unknown")),
    ("chain", "own_joint", ("clip-slip", "clip-press", "rivet", "endless", "unknown")),
    ("chain", "seal", ("O", "X", "other", "unknown")),
    ("seals", "shape", ("O", "X", "other", "unknown")),
    ("chain", "elongation", ("0.9", "1.0", "1.1", "unknown")),
    ("chain", "size_code", ("520H", "525")),
    ("seals", "covers_bush", ("no", "unknown")),
)
TRIALS: tuple[dict[str, str], ...] = (
    {"enters": "yes", "clip_on": "yes", "bends": "yes"},
    {"enters": "yes", "clip_on": "yes"},
    {"enters": "no"},
    {"enters": "yes", "clip_on": "no"},
    {"enters": "yes", "clip_on": "yes", "bends": "no"},
    # a pressed plate that can be moved by hand, everything else seen well, and beside a joint that binds
    {"enters": "yes", "clip_on": "yes", "bends": "yes", "plate_moves": "yes"},
    {"enters": "yes", "clip_on": "yes", "bends": "no", "plate_moves": "yes"},
    {"enters": "yes", "clip_on": "yes", "bends": "yes", "plate_moves": "no"},
)


@cache
def word_clubs() -> dict[str, Dataset]:
    """One word changed at a time, on a pressed, a sliding and a riveted joint; and each kind of trial."""
    clubs: dict[str, Dataset] = {}
    for (plate_fit, closure), (id_, name, words) in product(
        (("press", "clip"), ("slip", "clip"), ("press", "rivet"), ("press", "screw")), WORDS
    ):
        for word in words:
            joint = RandomJoint(base_pieces("sealed", plate_fit, closure))
            if id_ in joint.pieces:
                joint.pieces[id_].words[name] = word
                if name == "seal" and word == "X":
                    clubs |= _other_seals(joint, f"{plate_fit} {closure}")
                clubs[f"{plate_fit} {closure} {id_} {name} {word}"] = joint.dataset()
    return clubs | _every_kind() | _unmeasured() | _tried() | _worn_pins() | _taken_off()


def _every_kind() -> dict[str, Dataset]:
    """Every kind of joint as it is, the odd ones too: no clip where a plate slides on, a link of the other kind."""
    words = (("sealed", "plain"), PLATE_FITS, ("clip", "rivet", "screw"), ("sealed", "plain"))
    return {
        " ".join((*kind, room)): _with_room(RandomJoint(base_pieces(*kind)), room).dataset()
        for kind, room in product(product(*words), ROOMS)
    }


def _other_seals(joint: RandomJoint, label: str) -> dict[str, Dataset]:
    joint.pieces["seals"].from_memory = True
    remembered = joint.dataset()
    joint.pieces["seals"].from_memory = False
    return {f"{label} other seals remembered": remembered}


def _unmeasured() -> dict[str, Dataset]:
    clubs = {}
    for code, made_for in (("520", "sealed"), ("520", "plain"), ("520H", "sealed"), ("525", "sealed"), ("530", "sealed"),
                           ("532", "sealed")):  # fmt: skip
        joint = RandomJoint(base_pieces("sealed", made_for=made_for))
        joint.pieces["link"].dims.clear()
        joint.pieces["link"].words["size_code"] = code
        clubs[f"not measured {code} {made_for}"] = joint.dataset()
    joint = RandomJoint(base_pieces())
    joint.pieces["chain"].words["size_code"] = "525"
    joint.pieces["chain"].dims.clear()
    return clubs | {"not measured, narrower": joint.dataset()}


def _taken_off() -> dict[str, Dataset]:
    """A clip that has never been off its link, which is not this one."""
    joint = RandomJoint(base_pieces())
    joint.pieces["clip"].words["history"] = "never-off"
    dataset = joint.dataset()
    link = dataset.links["link"]
    alone = replace(link, record=link.record.model_copy(update={"clip": None}))
    return {"never off another link": replace(dataset, links={**dataset.links, "link": alone})}


def _worn_pins() -> dict[str, Dataset]:
    """A step on a pin from, and up to, one nanometre under, on and over 0.10 mm."""
    clubs, worn = {}, NM_PER_MM // 10
    for low, high in ((worn - 2, worn - 1), (worn - 1, worn), (worn, worn + 1)):
        dataset = RandomJoint(base_pieces()).dataset()
        link = dataset.links["link"]
        step = Quantity(low, low, high, "measured")
        links = {**dataset.links, "link": replace(link, dims={**link.dims, "pin_step": step})}
        clubs[f"pin step {low} to {high}"] = replace(dataset, links=links)
    return clubs


def _tried() -> dict[str, Dataset]:
    clubs = {}
    for number, seen in enumerate(TRIALS):
        dataset = RandomJoint(base_pieces()).dataset()
        words = {
            "chain": "chain",
            "link": "link",
            "clip": "clip",
            "seals": "fitted",
            "on": "2027-02-01",
            **seen,
        }
        trial = TrialFacts("trial", Trial.model_validate(words), {})
        clubs[f"tried {number}"] = replace(dataset, trials={"trial": trial})
    return clubs


def clubs() -> dict[str, Dataset]:
    """All of them by label, the joints on a limit with how many nanometres inside they are."""
    found = {
        f"{label} {side:+d}": joint.dataset()
        for label, boundary in boundaries().items()
        for side, joint in boundary.joints
    }
    return found | pitch_clubs() | word_clubs()
