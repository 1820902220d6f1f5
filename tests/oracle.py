"""A second, slow reckoning of one joint: intervals and words in, a rung range for every check and for the joint out.

It shares no code and no table with the generator, so that an error has to be made twice to stay hidden.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor

RUNGS = ("proper", "get-home", "last-resort", "no-go")
PROPER, GET_HOME, LAST_RESORT, NO_GO = range(4)
GROUPS = ("body", "pin", "place", "seal", "clip")
# Seals as made first, makeshifts after.
OPTIONS = ("fitted", "none", "left-out", "packed")
# (low, nominal, high); as a slack, None is minus infinity, not known, plus infinity
Interval = tuple[Fraction, Fraction, Fraction]
Slack = tuple[Fraction | None, Fraction | None, Fraction | None]
Edges3 = tuple[str, str, str] | None
Dims = Mapping[str, Interval]
Words = Mapping[str, str]

# Order in which equal checks are named.
ORDER = (
    "pitch", "pin-entry", "clip-goes-on", "clip-goes-on-without-seals", "packing-room", "backing", "float",
    "shoulder-place", "clip-over-shoulder", "bush-stop", "tip-land", "squeeze", "clip-wear", "clip-floor", "clip-entry", "clip-seat",
    "clip-mouth", "clip-spacing", "stick-out", "stick-out-unread", "plate-height", "plate-section", "strength",
    "flare-stand-out",
    "hollow-depth", "size-code", "rule-of-thumb", "chain-kind", "seal-kind", "seals-left-out", "joint-kind",
    "screw-plate", "half-link", "clip-history", "link-condition", "chain-worn", "dry-fit",
)  # fmt: skip
# All that is asked where the pins cannot line up.
ASKED_OF_OTHER_PITCH = ("pitch", "size-code")
GROUP_OF = {
    "pin": ("pin-entry",),
    "place": (
        "clip-goes-on", "clip-goes-on-without-seals", "backing", "float", "shoulder-place", "clip-over-shoulder",
        "bush-stop", "tip-land", "flare-stand-out", "hollow-depth", "packing-room", "dry-fit",
    ),
    "seal": ("squeeze", "chain-kind", "seal-kind", "seals-left-out"),
    "clip": ("clip-entry", "clip-seat", "clip-mouth", "clip-spacing", "clip-wear", "clip-floor", "clip-history"),
}  # fmt: skip

# Low and high edges for proper, get-home, last-resort, mm; "" repeats the tighter edge (common practice, no source).
BANDS: dict[str, tuple[Edges3, Edges3]] = {
    "pitch": (("-0.20", "", ""), ("0.20", "", "")),
    "pin-entry": (("0", "", ""), ("0.15", "0.25", "0.35")),
    "clip-goes-on": (("-0.05", "-0.35", ""), None),
    "packing-room": (("0", "", ""), None),
    "backing": (None, ("0.35", "2.5", "3.2")),
    "shoulder-place": (("-0.10", "-0.35", ""), ("0.15", "0.50", "1.0")),
    "clip-over-shoulder": (("0", "", ""), None),
    "bush-stop": (("0.05", "", ""), None),
    "tip-land": (("0.50", "0.35", "0.25"), None),
    "clip-entry": (("0.02", "0", ""), ("0.25", "0.45", "0.60")),
    "clip-seat": (("-0.30", "", ""), ("0.10", "0.25", "")),
    "clip-mouth": (("0.30", "0.10", ""), None),
    "clip-spacing": (("-0.15", "-0.30", ""), ("0.15", "0.30", "")),
    "clip-floor": (("0.60", "", ""), None),
    "plate-height": (None, ("0.3", "0.8", "")),
    "flare-stand-out": (("0.7", "0.4", ""), ("1.6", "2.2", "")),
    "hollow-depth": (("0", "-0.3", ""), None),
}
# At least so many times the other.
SHARES = {
    "clip-wear": ("0.80", "0.65", "0.50"),
    "plate-section": ("0.93", "0.80", "0.65"),
    "strength": ("0.95", "0.75", "0.60"),
}
FLOAT_SEALED = ("0", "0.8", "2.5")
# On a plain chain the side play of the neighbours, b3 - b2b, and so much more: a flat 0.8 mm would
# leave hardly any get-home band beside neighbours that swim by 0.4 mm or more themselves.
FLOAT_PLAIN = ("0.35", "0.8", "2.5")
# Squeeze as a share of the free thickness, low and high, proper and then get-home (general O-ring practice).
SQUEEZE = {"slip": (("0.08", "-0.05"), ("0.30", "0.41")), "press": (("0.08", "-0.30"), ("0.30", "0.41"))}
STICK_OUT = "2.0"
BIKE_ROOM = ("1.0", "0.5")
# Roller and inner width of the size codes, mm; H: the heavy series of the same size (trade size tables; 25H, 219 and
# 270H an owners' table).
SIZES = {
    "25H": ("3.30", "3.18"),
    "219": ("4.59", "4.68"),
    "270H": ("5.00", "4.75"),
    "415": ("7.77", "4.76"),
    "420": ("7.77", "6.35"),
    "428": ("8.51", "7.94"),
    "520": ("10.16", "6.35"),
    "525": ("10.16", "7.94"),
    "530": ("10.16", "9.53"),
    "532": ("11.10", "9.53"),
    "630": ("11.91", "9.53"),
}


@dataclass(frozen=True)
class Lin:
    """A linear form: a coefficient for each symbol, the constant under ""."""

    terms: Mapping[str, Fraction]

    def __add__(self, other: "Lin") -> "Lin":
        names = set(self.terms) | set(other.terms)
        return Lin({n: self.terms.get(n, Fraction(0)) + other.terms.get(n, Fraction(0)) for n in names})

    def __mul__(self, factor: str | int | Fraction) -> "Lin":
        return Lin({name: value * Fraction(factor) for name, value in self.terms.items()})

    def __sub__(self, other: "Lin") -> "Lin":
        return self + other * -1

    def over(self, dims: Dims) -> Slack:
        """The range of the form; a symbol that cancels out need not be known."""
        used = {name: value for name, value in self.terms.items() if value and name}
        if any(name not in dims for name in used):
            return (None, None, None)
        ends = [self.terms.get("", Fraction(0))] * 3
        for name, value in used.items():
            low, nominal, high = dims[name]
            first, last = (low, high) if value > 0 else (high, low)
            ends = [ends[0] + value * first, ends[1] + value * nominal, ends[2] + value * last]
        return (ends[0], ends[1], ends[2])


def sym(name: str) -> Lin:
    """One symbol."""
    return Lin({name: Fraction(1)})


def num(value: str | Fraction) -> Lin:
    """One number."""
    return Lin({"": Fraction(value)})


@dataclass(frozen=True)
class Edge:
    """Holds for a rung when one of its forms is not negative."""

    rung: int
    forms: tuple[Lin, ...]

    def slack(self, dims: Dims) -> Slack:
        ranges = [form.over(dims) for form in self.forms]
        lows = [low for low, _, _ in ranges if low is not None]
        middles = [middle for _, middle, _ in ranges if middle is not None]
        highs = [high for _, _, high in ranges if high is not None]
        return (
            max(lows, default=None),
            max(middles, default=None),
            max(highs) if len(highs) == len(ranges) else None,
        )


@dataclass(frozen=True)
class Check:
    """The rungs a check may have, its clearance and its slack to the next better rung."""

    best: int
    worst: int
    clearance: Slack | None = None
    slack: Fraction | None = None
    worded: bool = False
    edges: tuple[Edge, ...] = field(default=(), repr=False)
    over: Dims = field(default_factory=dict, repr=False)


@dataclass(frozen=True)
class Joint:
    """The rungs of a joint with one option, and the check that decides."""

    option: str
    best: int
    worst: int
    deciding: str
    checks: Mapping[str, Check] = field(repr=False)

    @property
    def slack(self) -> Fraction | None:
        return self.checks[self.deciding].slack


def _filled(edges: tuple[str, ...]) -> list[str]:
    out: list[str] = []
    for edge in edges:
        out.append(edge or out[-1])
    return out


def banded(forms: tuple[Lin, ...], low: Edges3, high: Edges3, slope: Lin | None = None) -> list[Edge]:
    """Edges of a band; the clearance is the least of `forms`; `slope` widens the high side."""
    out = []
    for rung, edge in enumerate(_filled(low) if low else []):
        out += [Edge(rung, (form - num(edge),)) for form in forms]
    for rung, edge in enumerate(_filled(high) if high else []):
        limit = num(edge) + (slope or num("0"))
        out.append(Edge(rung, tuple(limit - form for form in forms)))
    return out


def _first(edges: list[Edge], holds: Callable[[Edge], bool]) -> int:
    """The best rung whose edges, and those of all looser rungs, hold."""
    for rung in (PROPER, GET_HOME, LAST_RESORT):
        if all(holds(edge) for edge in edges if edge.rung >= rung):
            return rung
    return NO_GO


def weigh(edges: list[Edge], clearance: tuple[Lin, ...], dims: Dims) -> Check:
    """The range of rungs of one check over its interval."""

    def surely(edge: Edge) -> bool:
        low = edge.slack(dims)[0]
        return low is not None and low >= 0

    def possibly(edge: Edge) -> bool:
        high = edge.slack(dims)[2]
        return high is None or high >= 0

    best, worst = _first(edges, possibly), _first(edges, surely)
    aim = max(worst - 1, PROPER)
    # a slack is told only where every dimension of the check is known
    known = all(form.over(dims)[1] is not None for edge in edges for form in edge.forms)
    slacks = [edge.slack(dims)[1] for edge in edges if edge.rung >= aim]
    slack = min((s for s in slacks if s is not None), default=None) if known else None
    return Check(best, worst, _least(clearance, dims), slack, edges=tuple(edges), over=dims)


def _least(forms: tuple[Lin, ...], dims: Dims) -> Slack | None:
    ranges = [form.over(dims) for form in forms]
    columns = [[r[i] for r in ranges] for i in range(3)]
    ends = [min(v for v in column if v is not None) if None not in column else None for column in columns]
    return None if None in ends else (ends[0], ends[1], ends[2])


def settled(dims: Dims) -> Dims:
    """With `hold`, fixed plate to the near face of the clip pulled outward: reach + groove - clip, or read in
    one (C); where both are known what both allow, and the narrower one gives the middle."""
    reach = (sym("G") + sym("gw") - sym("k")).over(dims)
    ways = [_known(way) for way in (reach, dims.get("C", (None, None, None))) if None not in way]
    if not ways:
        return dims
    low, high = max(way[0] for way in ways), min(way[2] for way in ways)
    if low > high:
        return {**dims, "hold": ways[0]}
    middle = min(ways, key=lambda way: way[2] - way[0])[1]
    return {**dims, "hold": (low, min(max(middle, low), high), high)}


def _known(ends: Slack) -> Interval:
    low, middle, high = (end for end in ends if end is not None)
    return low, middle, high


def stop_of() -> Lin:
    """Widest inside width at which the clip still enters."""
    return sym("hold") - sym("t")


def seat_of(words: Words) -> Lin:
    """Where the side plate rests."""
    return {"slip": stop_of(), "press": sym("b3"), "press-to-shoulder": sym("M")}[words["plate_fit"]]


def _simple(name: str, form: Lin, dims: Dims) -> Check:
    low, high = BANDS[name]
    return weigh(banded((form,), low, high), (form,), dims)


def _share(name: str, part: str, whole: str, dims: Dims) -> Check:
    edges = [Edge(rung, (sym(part) - sym(whole) * share,)) for rung, share in enumerate(SHARES[name])]
    return weigh(edges, (sym(part),), dims)


def _without_seals(dims: Dims, packed: bool) -> Check:
    stop = stop_of()
    room = stop - sym("b2b") - (sym("w") * 2 if packed else num("0"))
    edges = [Edge(rung, (room - num("0.05"),)) for rung in (PROPER, GET_HOME, LAST_RESORT)]
    edges.append(Edge(PROPER, (stop - sym("b3") + num("0.05"),)))
    return weigh(edges, (room,), dims)


def _float(dims: Dims, words: Words, option: str) -> Check:
    free = stop_of() - sym("b2b")
    # packing never counts below nothing, so the float is the lesser of two forms
    with_seals = (free, stop_of() - sym("b2p") - sym("s") * 2)
    forms = {"fitted": with_seals, "packed": (free - sym("w") * 2,)}.get(option, (free,))
    if words["kind"] == "sealed":
        return weigh(banded(forms, None, FLOAT_SEALED), forms, dims)
    return weigh(banded(forms, None, FLOAT_PLAIN, slope=sym("b3") - sym("b2b")), forms, dims)


def _squeeze(dims: Dims, words: Words) -> Check:
    lows, highs = SQUEEZE["slip" if words["plate_fit"] == "slip" else "press"]
    taken = sym("s") * 2 - seat_of(words) + sym("b2p")
    edges = []
    for rung in (PROPER, GET_HOME, LAST_RESORT):
        place = min(rung, GET_HOME)
        edges.append(Edge(rung, (taken - sym("s") * 2 * lows[place],)))
        edges.append(Edge(rung, (sym("s") * 2 * highs[place] - taken,)))
    return weigh(edges, (taken,), dims)


def _out(length: Lin, shifts: bool) -> Lin:
    """How far the pins stand out beyond the riveted ones; without seals a joint can shift to one side."""
    half = Fraction(1, 2)
    over = length - (sym("b3") + sym("b4")) * half
    return over + (sym("b3") - sym("b2b")) * half if shifts else over


def _shifts(words: Words, bare: bool) -> bool:
    """On a plain chain the neighbours shift alike, so that nothing stands out further for it."""
    return bare and words["kind"] == "sealed"


def _own_out(dims: Dims, words: Words) -> Interval | None:
    """How far the joint the bike runs with sticks out, as a value of its own whose ends are whole nanometres,
    rounded outward; None where that is not known."""
    if words["own_joint"] in ("rivet", "endless"):
        return (Fraction(0),) * 3
    ends = _out(sym("oL"), _shifts(words, words.get("own_link_seals", "yes") == "no")).over(dims)
    if None in ends:
        return None
    low, middle, high = _known(ends)
    million = 10**6
    return Fraction(floor(low * million), million), middle, Fraction(ceil(high * million), million)


# room beside the chain that each rung leaves, mm
ROOM_LEFT = ((PROPER, BIKE_ROOM[0]), (GET_HOME, BIKE_ROOM[1]), (LAST_RESORT, BIKE_ROOM[1]))


def _stick_out(dims: Dims, words: Words, option: str) -> dict[str, Check]:
    """Against the least room read on any bike that runs the chain, and against the rooms nobody has read."""
    out = _out(sym("L"), _shifts(words, option in ("left-out", "none")))
    found = {}
    if "clr" in dims:
        edges = [Edge(PROPER, (num(STICK_OUT) - out,))]
        edges += [Edge(rung, (sym("clr") - num(room) - out,)) for rung, room in ROOM_LEFT]
        found["stick-out"] = weigh(edges, (out,), dims)
    if words["unread_room"] == "yes":
        # with its seals left out or washers in it the joint is not the one the bike has run with
        as_ever = words.get("runs_with", "no") == "yes" and option in ("fitted", "none")
        found["stick-out-unread"] = _out_beside_the_unread(out, dims, words, as_ever)
    return found


def _out_beside_the_unread(out: Lin, dims: Dims, words: Words, as_ever: bool) -> Check:
    unread = sym("a room nobody has read")
    edges = [Edge(PROPER, (num(STICK_OUT) - out,))]
    if as_ever:
        # the bike runs with this joint, so that only its length speaks against it
        spared = unread - num(BIKE_ROOM[1]) - out
        edges += [Edge(rung, (num(STICK_OUT) - out, spared)) for rung in (GET_HOME, LAST_RESORT)]
        return weigh(edges, (out,), dims)
    own = _own_out(dims, words)
    spare = (sym("own") - out,) if own is not None else ()
    dims = dims if own is None else {**dims, "own": own}
    edges += [Edge(rung, (unread - num(room) - out, *spare)) for rung, room in ROOM_LEFT]
    return weigh(edges, (out,), dims)


def _clip_checks(dims: Dims, words: Words, option: str) -> dict[str, Check]:
    stop = stop_of()
    rests = sym("b3") if words["plate_fit"] != "press-to-shoulder" else sym("M")
    entry = sym("gw") - sym("k")
    bow = sym("bow") if "bow" in dims else num("0")
    out = {
        "backing": _simple("backing", stop - rests, dims),
        "tip-land": _simple("tip-land", sym("L") - sym("G") - sym("gw"), dims),
        "clip-entry": weigh(banded((entry,), *BANDS["clip-entry"], slope=bow), (entry,), dims),
        "clip-seat": _simple("clip-seat", sym("cs") - sym("gd"), dims),
        "clip-mouth": _simple("clip-mouth", sym("gd") - sym("cm"), dims),
        "clip-spacing": _simple("clip-spacing", sym("csp") - sym("pl"), dims),
        # a new clip is as thick as it was when new
        "clip-wear": _share(
            "clip-wear",
            "k",
            "k0",
            {"k0": dims["k"], **dims} if words.get("clip_history") == "new" and "k" in dims else dims,
        ),
        "clip-floor": _simple("clip-floor", sym("k"), dims),
        "clip-history": _worded("clip-history", words.get("clip_history", "unknown")),
    }
    if option == "fitted":
        out["clip-goes-on"] = _simple("clip-goes-on", stop - sym("b3"), dims)
    else:
        out["clip-goes-on-without-seals"] = _without_seals(dims, option == "packed")
    if words["plate_fit"] == "slip":
        out["float"] = _float(dims, words, option)
    if words["plate_fit"] == "press-to-shoulder":
        out["clip-over-shoulder"] = _simple("clip-over-shoulder", stop - sym("M"), dims)
    return out


def _closed_by_force(dims: Dims, words: Words) -> dict[str, Check]:
    """Rivet pins are flared, the stub of a screw link is staked; both stand out from where the plate rests."""
    stand_out = sym("L") - sym("t") - seat_of(words)
    out = {"flare-stand-out": _simple("flare-stand-out", stand_out, dims)}
    if words["closure"] == "rivet" and words.get("pin_kind", "unknown") != "solid":
        out["hollow-depth"] = _simple("hollow-depth", sym("hd") - stand_out, dims)
    if words["closure"] == "screw":
        out["screw-plate"] = _worded("screw-plate", words.get("screw_plate", "own"))
    return out


# A word and the rungs it stands for, best and worst; not known: all that it could be.
WORDED = {
    "clip-history": {"new": (0, 0), "never-off": (0, 0), "off-once": (1, 1), "taken-off": (1, 1), "bent": (3, 3), "unknown": (0, 3)},
    "screw-plate": {"own": (0, 0), "other": (3, 3)},
    "half-link": {"no": (0, 0), "yes": (3, 3)},
    "link-condition": {"new": (0, 0), "fitted-once": (0, 0), "cracked": (3, 3), "drilled": (3, 3), "worn": (3, 3), "perhaps-worn": (0, 3)},
    "chain-worn": {"within": (0, 0), "beyond": (1, 1), "unknown": (0, 1)},
    "size-code": {
        "same": (0, 0), "other-series": (1, 1), "wider": (1, 1), "narrower": (3, 3), "other-roller": (1, 1),
        "other-pitch": (3, 3),
    },
    "rule-of-thumb": {"measured": (0, 0), "possible": (0, 3), "makeshift": (1, 3), "hopeless": (3, 3)},
    "chain-kind": {"same": (0, 0), "differs": (1, 1)},
    "seal-kind": {"same": (0, 0), "as-squeezed": (0, 0), "differs": (1, 1), "unknown": (0, 1)},
    "seals-left-out": {"so": (1, 1)},
    "joint-kind": {"as-strong": (0, 0), "weaker": (1, 1), "unknown": (0, 1)},
    "dry-fit": {"not-tried": (0, 0), "tried-in-part": (0, 0), "went-together": (0, 0), "stiff": (2, 2), "plate-moves": (3, 3), "did-not-go": (3, 3)},
}  # fmt: skip


def _worded(name: str, word: str) -> Check:
    best, worst = WORDED[name][word]
    return Check(best, worst, worded=True)


def size_word(link: str, chain: str, dims: Dims) -> str:
    """How a link of one size code stands to a chain of another: pitch, then series, then roller, then width."""
    (roller, width), (on_roller, on_width) = _size(link), _size(chain)
    if abs(dims["pl"][1] - dims["p"][1]) > Fraction("0.2"):
        return "other-pitch"
    if link == chain:
        return "same"
    if link.rstrip("H") == chain.rstrip("H"):
        return "other-series"
    # codes with another roller differ by 0.7 mm or more, with another width by 1.5 mm or more
    if abs(roller - on_roller) > Fraction("0.5"):
        return "other-roller"
    return "wider" if width > on_width else "narrower"


def _size(code: str) -> tuple[Fraction, Fraction]:
    roller, width = SIZES[code if code in SIZES else code.removesuffix("H")]
    return Fraction(roller), Fraction(width)


# Parts of which nothing of these is known count as not measured.
READ_OF_CHAIN, READ_OF_LINK = ("d3", "b2p", "b2b", "b3"), ("d", "G", "C", "L", "t")


def _thumb_word(dims: Dims, words: Words, size: str) -> str:
    if any(name in dims for name in READ_OF_CHAIN) and any(name in dims for name in READ_OF_LINK):
        return "measured"
    if size in ("narrower", "other-roller", "other-pitch"):
        return "hopeless"
    return "possible" if size == "same" and words["made_for"] == words["kind"] else "makeshift"


def _joint_word(words: Words) -> str:
    if words["plate_fit"] != "slip" or words["own_joint"] == "clip-slip":
        return "as-strong"
    return "unknown" if words["own_joint"] == "unknown" else "weaker"


def _seal_word(words: Words) -> str:
    """A seal of another section passes where it was measured and covers the bush; then its squeeze alone judges it."""
    if "unknown" in (words["seal_shape"], words["chain_seal"]):
        return "unknown"
    as_squeezed = words.get("seal_evidence") == "measured" and words.get("covers_bush") == "yes"
    if as_squeezed:
        return "as-squeezed"
    if words["seal_shape"] != words["chain_seal"]:
        return "differs"
    return "unknown" if words["seal_shape"] == "other" else "same"


def _kinds(dims: Dims, words: Words, option: str) -> dict[str, Check]:
    sealed = words["kind"] == "sealed"
    size = size_word(words["link_size"], words["chain_size"], dims)
    out = {
        "size-code": _worded("size-code", size),
        "rule-of-thumb": _worded("rule-of-thumb", _thumb_word(dims, words, size)),
        "chain-kind": _worded("chain-kind", "same" if words["made_for"] == words["kind"] else "differs"),
        "joint-kind": _worded("joint-kind", _joint_word(words)),
        "half-link": _worded("half-link", words.get("half_link", "no")),
        "link-condition": _worded("link-condition", words["condition"]),
        "chain-worn": _worded("chain-worn", words["wear"]),
        "dry-fit": _worded("dry-fit", words.get("tried", "not-tried")),
    }
    if option == "fitted":
        out["squeeze"] = _squeeze(dims, words)
        if sealed:
            out["seal-kind"] = _worded("seal-kind", _seal_word(words))
    if option == "packed" and words["plate_fit"] != "slip":
        # two washers between the bush ends and the plates, or the plate cannot go down
        out["packing-room"] = _simple("packing-room", seat_of(words) - sym("b2b") - sym("w") * 2, dims)
    if option == "packed" or (sealed and option != "fitted"):
        out["seals-left-out"] = _worded("seals-left-out", "so")
    return out


def checks_of(known: Dims, words: Words, option: str) -> dict[str, Check]:
    """Every check that applies to the pair with this option, in the order of the rules."""
    dims = settled(known)
    out = {
        "pitch": _simple("pitch", sym("pl") - sym("p"), dims),
        "pin-entry": _simple("pin-entry", sym("d3") - sym("d"), dims),
        **_stick_out(dims, words, option),
        "plate-section": _share("plate-section", "t", "tc", dims),
        **_kinds(dims, words, option),
    }
    if words["plate_fit"] == "press-to-shoulder":
        out["shoulder-place"] = _simple("shoulder-place", sym("M") - sym("b3"), dims)
        out["bush-stop"] = _simple("bush-stop", sym("M") - sym("b2b"), dims)
    if "h" in dims and "h2" in dims:
        out["plate-height"] = _simple("plate-height", sym("h") - sym("h2"), dims)
    if "Fl" in dims and "Fc" in dims:
        out["strength"] = _share("strength", "Fl", "Fc", dims)
    out |= _clip_checks(dims, words, option) if words["closure"] == "clip" else _closed_by_force(dims, words)
    asked = (
        ASKED_OF_OTHER_PITCH
        if size_word(words["link_size"], words["chain_size"], dims) == "other-pitch"
        else ORDER
    )
    return {name: out[name] for name in ORDER if name in out and name in asked}


def group_of(name: str) -> str:
    """The group a check belongs to."""
    return next((group for group, names in GROUP_OF.items() if name in names), "body")


def added_up(rungs: Mapping[str, int]) -> int:
    """The worst check; four groups or more at get-home make last-resort."""
    groups = {group_of(name) for name, rung in rungs.items() if rung >= GET_HOME}
    worst = max(rungs.values())
    return max(worst, LAST_RESORT) if len(groups) >= 4 else worst


def _rank(item: tuple[str, Check]) -> tuple[int, int, bool, Fraction, int]:
    name, check = item
    return (-check.worst, -check.best, check.slack is None, check.slack or Fraction(0), ORDER.index(name))


def judge(dims: Dims, words: Words, option: str) -> Joint:
    """One pair with one option; `plate_fit` must be known (a caller splits the cases)."""
    checks = checks_of(dims, words, option)
    best = added_up({name: check.best for name, check in checks.items()})
    worst = added_up({name: check.worst for name, check in checks.items()})
    deciding = min(checks.items(), key=_rank)[0]
    return Joint(option, best, worst, deciding, checks)


def rank(joint: Joint) -> tuple[int, int, int, int, Fraction]:
    """Worst rung, best rung, seals as made before makeshifts, then the larger slack of the deciding check:
    a yes-or-no check counts as nothing to spare, one with a missing dimension comes last."""
    deciding = joint.checks[joint.deciding]
    place = OPTIONS.index(joint.option)
    if deciding.slack is None and not deciding.worded:
        return (joint.worst, joint.best, place, 1, Fraction(0))
    return (joint.worst, joint.best, place, 0, -(deciding.slack or Fraction(0)))


def choose(joints: Sequence[Joint]) -> Joint:
    """The best option; of equals the first."""
    return min(joints, key=rank)


def pair_range(joints: Sequence[Joint]) -> tuple[int, int]:
    """Best of bests and best of worsts over the options."""
    return min(joint.best for joint in joints), min(joint.worst for joint in joints)


def refused(words: Words) -> str | None:
    """Why no verdict is given, or None."""
    for name in ("link_size", "chain_size", "kind", "made_for", "plate_fit", "condition"):
        if words[name] == "unknown":
            return f"{name} is not known"
    if "modified" in (words["condition"], words.get("chain_state", "as-made")):
        return "a part is modified"
    return None
