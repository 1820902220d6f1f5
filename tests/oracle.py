"""A second, slow reckoning of one joint: intervals and words in, a rung range for every check and for the joint out.

It shares no code and no table with the generator, so that an error has to be made twice to stay hidden.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

RUNGS = ("proper", "get-home", "last-resort", "no-go")
PROPER, GET_HOME, LAST_RESORT, NO_GO = range(4)
GROUPS = ("body", "pin", "place", "seal", "clip")
OPTIONS = ("fitted", "left-out", "none", "packed")
# (low, nominal, high); as a slack, None is minus infinity, not known, plus infinity
Interval = tuple[Fraction, Fraction, Fraction]
Slack = tuple[Fraction | None, Fraction | None, Fraction | None]
Edges3 = tuple[str, str, str] | None
Dims = Mapping[str, Interval]
Words = Mapping[str, str]

# Order in which equal checks are named.
ORDER = (
    "pitch", "pin-entry", "clip-goes-on", "clip-goes-on-without-seals", "backing", "float", "shoulder-place",
    "clip-over-shoulder", "bush-stop", "tip-land", "squeeze", "clip-entry", "clip-seat", "clip-mouth", "clip-spacing",
    "clip-wear", "clip-floor", "stick-out", "plate-height", "plate-section", "strength", "flare-stand-out",
    "hollow-depth", "size-code", "chain-kind", "seal-kind", "seals-left-out", "joint-kind", "screw-plate", "half-link",
    "clip-history", "link-condition", "chain-worn",
)  # fmt: skip
GROUP_OF = {
    "pin": ("pin-entry",),
    "place": (
        "clip-goes-on", "clip-goes-on-without-seals", "backing", "float", "shoulder-place", "clip-over-shoulder",
        "bush-stop", "tip-land", "flare-stand-out", "hollow-depth",
    ),
    "seal": ("squeeze", "chain-kind", "seal-kind", "seals-left-out"),
    "clip": ("clip-entry", "clip-seat", "clip-mouth", "clip-spacing", "clip-wear", "clip-floor", "clip-history"),
}  # fmt: skip

# Low and high edges for proper, get-home, last-resort, mm; "" repeats the tighter edge (common practice, no source).
BANDS: dict[str, tuple[Edges3, Edges3]] = {
    "pitch": (("-0.20", "", ""), ("0.20", "", "")),
    "pin-entry": (("0", "", ""), ("0.15", "0.25", "0.35")),
    "clip-goes-on": (("-0.05", "-0.35", ""), None),
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
FLOAT_PLAIN_ROOM = "0.35"
# Squeeze as a share of the free thickness, low and high, proper and then get-home (general O-ring practice).
SQUEEZE = {"slip": (("0.08", "-0.05"), ("0.30", "0.41")), "press": (("0.08", "-0.30"), ("0.30", "0.41"))}
STICK_OUT = "2.0"
BIKE_ROOM = ("1.0", "0.5")


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
    slacks = [edge.slack(dims)[1] for edge in edges if edge.rung >= aim]
    known = [slack for slack in slacks if slack is not None]
    return Check(best, worst, _least(clearance, dims), min(known, default=None))


def _least(forms: tuple[Lin, ...], dims: Dims) -> Slack | None:
    ranges = [form.over(dims) for form in forms]
    columns = [[r[i] for r in ranges] for i in range(3)]
    ends = [min(v for v in column if v is not None) if None not in column else None for column in columns]
    return None if None in ends else (ends[0], ends[1], ends[2])


def stop_of(dims: Dims) -> Lin:
    """Widest inside width at which the clip still enters: from reach, groove and clip, or read in one."""
    if "C" in dims and "G" not in dims:
        return sym("C") - sym("t")
    return sym("G") + sym("gw") - sym("k") - sym("t")


def seat_of(dims: Dims, words: Words) -> Lin:
    """Where the side plate rests."""
    return {"slip": stop_of(dims), "press": sym("b3"), "press-to-shoulder": sym("M")}[words["plate_fit"]]


def _simple(name: str, form: Lin, dims: Dims) -> Check:
    low, high = BANDS[name]
    return weigh(banded((form,), low, high), (form,), dims)


def _share(name: str, part: str, whole: str, dims: Dims) -> Check:
    edges = [Edge(rung, (sym(part) - sym(whole) * share,)) for rung, share in enumerate(SHARES[name])]
    return weigh(edges, (sym(part),), dims)


def _without_seals(dims: Dims, packed: bool) -> Check:
    stop = stop_of(dims)
    room = stop - sym("b2b") - (sym("w") * 2 if packed else num("0"))
    edges = [Edge(rung, (room - num("0.05"),)) for rung in (PROPER, GET_HOME, LAST_RESORT)]
    edges.append(Edge(PROPER, (stop - sym("b3") + num("0.05"),)))
    return weigh(edges, (room,), dims)


def _float(dims: Dims, words: Words, option: str) -> Check:
    free = stop_of(dims) - sym("b2b")
    # packing never counts below nothing, so the float is the lesser of two forms
    with_seals = (free, stop_of(dims) - sym("b2p") - sym("s") * 2)
    forms = {"fitted": with_seals, "packed": (free - sym("w") * 2,)}.get(option, (free,))
    edges = banded(forms, None, FLOAT_SEALED)
    if words["kind"] == "plain":
        # as much as the neighbours and a little more; looser rungs are never tighter than that
        wide = sym("b3") - sym("b2b") + num(FLOAT_PLAIN_ROOM)
        more = tuple(wide - form for form in forms)
        edges = [Edge(e.rung, more if e.rung == PROPER else e.forms + more) for e in edges]
    return weigh(edges, forms, dims)


def _squeeze(dims: Dims, words: Words) -> Check:
    lows, highs = SQUEEZE["slip" if words["plate_fit"] == "slip" else "press"]
    taken = sym("s") * 2 - seat_of(dims, words) + sym("b2p")
    edges = []
    for rung in (PROPER, GET_HOME, LAST_RESORT):
        place = min(rung, GET_HOME)
        edges.append(Edge(rung, (taken - sym("s") * 2 * lows[place],)))
        edges.append(Edge(rung, (sym("s") * 2 * highs[place] - taken,)))
    return weigh(edges, (taken,), dims)


def _out(length: Lin, bare: bool) -> Lin:
    half = Fraction(1, 2)
    over = length - (sym("b3") + sym("b4")) * half
    return over + (sym("b3") - sym("b2b")) * half if bare else over


def _own_out(words: Words) -> Lin | None:
    """How far the joint the bike runs with sticks out; None where that is not known."""
    known = words.get("own_link", "unknown")
    if known in ("same", "other"):
        return _out(sym("L" if known == "same" else "oL"), words["kind"] == "plain")
    return num("0") if words["own_joint"] in ("rivet", "endless") else None


def _stick_out(dims: Dims, words: Words, option: str) -> Check:
    out = _out(sym("L"), option != "fitted")
    own = _own_out(words) if "clr" not in dims else None
    spare = (own - out,) if own is not None else ()
    edges = [Edge(PROPER, (num(STICK_OUT) - out,))]
    for rung, room in ((PROPER, BIKE_ROOM[0]), (GET_HOME, BIKE_ROOM[1]), (LAST_RESORT, BIKE_ROOM[1])):
        edges.append(Edge(rung, (sym("clr") - num(room) - out, *spare)))
    return weigh(edges, (out,), dims)


def _clip_checks(dims: Dims, words: Words, option: str) -> dict[str, Check]:
    stop = stop_of(dims)
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
        "clip-wear": _share("clip-wear", "k", "k0", dims),
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
    """Rivet pins are flared, the stub of a screw link is staked."""
    stand_out = sym("L") - sym("t") - sym("b3")
    out = {"flare-stand-out": _simple("flare-stand-out", stand_out, dims)}
    if words["closure"] == "rivet" and words.get("pin_kind") == "hollow":
        out["hollow-depth"] = _simple("hollow-depth", sym("hd") - stand_out, dims)
    if words["closure"] == "screw":
        out["screw-plate"] = _worded("screw-plate", words.get("screw_plate", "own"))
    return out


# A word and the rungs it stands for, best and worst; not known: all that it could be.
WORDED = {
    "clip-history": {"new": (0, 0), "never-off": (0, 0), "off-once": (1, 1), "bent": (3, 3), "unknown": (0, 3)},
    "screw-plate": {"own": (0, 0), "other": (3, 3)},
    "half-link": {"no": (0, 0), "yes": (3, 3)},
    "link-condition": {"new": (0, 0), "fitted-once": (0, 0), "cracked": (3, 3), "drilled": (3, 3), "worn": (3, 3)},
    "chain-worn": {"within": (0, 0), "beyond": (1, 1), "unknown": (0, 1)},
    "size-code": {"same": (0, 0), "other": (1, 1), "other-pitch": (3, 3)},
    "chain-kind": {"same": (0, 0), "differs": (1, 1)},
    "seals-left-out": {"so": (1, 1)},
    "joint-kind": {"as-strong": (0, 0), "weaker": (1, 1), "unknown": (0, 1)},
}


def _worded(name: str, word: str) -> Check:
    best, worst = WORDED[name][word]
    return Check(best, worst)


def _size_word(dims: Dims, words: Words) -> str:
    if _simple("pitch", sym("pl") - sym("p"), dims).best == NO_GO:
        return "other-pitch"
    return "same" if words["link_size"] == words["chain_size"] else "other"


def _joint_word(words: Words) -> str:
    if words["plate_fit"] != "slip" or words["own_joint"] == "clip-slip":
        return "as-strong"
    return "unknown" if words["own_joint"] == "unknown" else "weaker"


def _seal_kind(words: Words, squeeze: Check) -> Check:
    if words["seal_shape"] == words["chain_seal"]:
        return Check(PROPER, PROPER)
    if words.get("seal_evidence") != "measured" or words.get("covers_bush") != "yes":
        return Check(GET_HOME, GET_HOME)
    return Check(min(squeeze.best, GET_HOME), min(squeeze.worst, GET_HOME))


def _kinds(dims: Dims, words: Words, option: str) -> dict[str, Check]:
    sealed = words["kind"] == "sealed"
    out = {
        "size-code": _worded("size-code", _size_word(dims, words)),
        "chain-kind": _worded("chain-kind", "same" if words["made_for"] == words["kind"] else "differs"),
        "joint-kind": _worded("joint-kind", _joint_word(words)),
        "half-link": _worded("half-link", words.get("half_link", "no")),
        "link-condition": _worded("link-condition", words["condition"]),
        "chain-worn": _worded("chain-worn", words["wear"]),
    }
    if option == "fitted":
        out["squeeze"] = _squeeze(dims, words)
        if sealed:
            out["seal-kind"] = _seal_kind(words, out["squeeze"])
    if option == "packed" or (sealed and option != "fitted"):
        out["seals-left-out"] = _worded("seals-left-out", "so")
    return out


def checks_of(dims: Dims, words: Words, option: str) -> dict[str, Check]:
    """Every check that applies to the pair with this option, in the order of the rules."""
    out = {
        "pitch": _simple("pitch", sym("pl") - sym("p"), dims),
        "pin-entry": _simple("pin-entry", sym("d3") - sym("d"), dims),
        "stick-out": _stick_out(dims, words, option),
        "plate-height": _simple("plate-height", sym("h") - sym("h2"), dims),
        "plate-section": _share("plate-section", "t", "tc", dims),
        **_kinds(dims, words, option),
    }
    if words["plate_fit"] == "press-to-shoulder":
        out["shoulder-place"] = _simple("shoulder-place", sym("M") - sym("b3"), dims)
        out["bush-stop"] = _simple("bush-stop", sym("M") - sym("b2b"), dims)
    if "Fl" in dims and "Fc" in dims:
        out["strength"] = _share("strength", "Fl", "Fc", dims)
    out |= _clip_checks(dims, words, option) if words["closure"] == "clip" else _closed_by_force(dims, words)
    return {name: out[name] for name in ORDER if name in out}


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


def options_of(dims: Dims, words: Words) -> list[str]:
    """Seals fitted where there are some, left out or none, packed where there are washers."""
    have = "s" in dims or "seal_shape" in words
    bare = "none" if words["kind"] == "plain" and not have else "left-out"
    return (["fitted"] if have else []) + [bare] + (["packed"] if "w" in dims else [])


def choose(joints: Sequence[Joint]) -> Joint:
    """Best by worst rung, then best rung, then the larger slack of the deciding check, then order."""

    def key(joint: Joint) -> tuple[int, int, bool, Fraction, int]:
        slack = joint.slack
        return (joint.worst, joint.best, slack is not None, -(slack or Fraction(0)), OPTIONS.index(joint.option))

    return min(joints, key=key)


def refused(words: Words) -> str | None:
    """Why no verdict is given, or None."""
    for name in ("link_size", "chain_size", "kind", "made_for", "condition"):
        if words[name] == "unknown":
            return f"{name} is not known"
    if "modified" in (words["condition"], words.get("chain_state", "as-made")):
        return "a part is modified"
    return None
