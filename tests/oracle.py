"""A second, slow reckoning of one joint: the rule records, intervals and words in, a rung range for every check out.

It reads the same rule records as the generator and shares no code with it: forms are read by Python itself, in plain
fractions, and what the names stand for is said here anew.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from itertools import product
from math import ceil, floor
from typing import Any

RUNGS = ("proper", "get-home", "last-resort", "no-go")
PROPER, GET_HOME, LAST_RESORT, NO_GO = range(4)
# Seals as made first, makeshifts after.
OPTIONS = ("fitted", "none", "left-out", "packed")
# What a hand or an eye saw counts in no group of small faults.
NO_GROUP = "evidence"
# (low, nominal, high); as a slack, None is minus infinity, not known, plus infinity
Interval = tuple[Fraction, Fraction, Fraction]
Slack = tuple[Fraction | None, Fraction | None, Fraction | None]
Dims = Mapping[str, Interval]
Words = Mapping[str, str]
Rule = Mapping[str, Any]
Rules = Mapping[str, Rule]

# All that is asked where the pins cannot line up.
ASKED_OF_OTHER_PITCH = ("pitch", "size-code")
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

    def plus(self, other: "Lin") -> "Lin":
        names = set(self.terms) | set(other.terms)
        return Lin({n: self.terms.get(n, Fraction(0)) + other.terms.get(n, Fraction(0)) for n in names})

    def times(self, factor: Fraction) -> "Lin":
        return Lin({name: value * factor for name, value in self.terms.items()})

    def over(self, dims: Dims) -> Slack:
        """The range of the form; a symbol that cancels out need not be known."""
        ends: list[Fraction | None] = [self.terms.get("", Fraction(0))] * 3
        for name, value in self.terms.items():
            if not value or not name:
                continue
            low, nominal, high = dims.get(name, (None, None, None))
            first, last = (low, high) if value > 0 else (high, low)
            ends = [_sum(end, value, part) for end, part in zip(ends, (first, nominal, last), strict=True)]
        return (ends[0], ends[1], ends[2])


def _sum(end: Fraction | None, factor: Fraction, part: Fraction | None) -> Fraction | None:
    return None if end is None or part is None else end + factor * part


# A value that chooses: the least of the greatest of its forms.
Clause = tuple[Lin, ...]


@dataclass(frozen=True)
class Form:
    """min over clauses of max over their forms, added up and turned round like a number."""

    clauses: tuple[Clause, ...]

    def __add__(self, other: "Form | int | Fraction") -> "Form":
        pairs = product(self.clauses, _form(other).clauses)
        return Form(tuple(tuple(a.plus(b) for a, b in product(one, two)) for one, two in pairs))

    __radd__ = __add__

    def __neg__(self) -> "Form":
        """Minus the least of the greatest is the greatest of the least: multiplied out again."""
        turned = [tuple(lin.times(Fraction(-1)) for lin in clause) for clause in self.clauses]
        return Form(tuple(product(*turned)))

    def __sub__(self, other: "Form | int | Fraction") -> "Form":
        return self + -_form(other)

    def __rsub__(self, other: "Form | int | Fraction") -> "Form":
        return _form(other) + -self

    def __mul__(self, other: "Form | int | Fraction") -> "Form":
        factor = _number(_form(other)) if _is_number(_form(other)) else None
        if factor is None:
            return _form(other) * self
        scaled = Form(tuple(tuple(lin.times(abs(factor)) for lin in clause) for clause in self.clauses))
        return scaled if factor >= 0 else -scaled

    __rmul__ = __mul__

    def __truediv__(self, other: "Form | int | Fraction") -> "Form":
        return self * num(1 / _number(_form(other)))


def _form(value: "Form | int | Fraction") -> Form:
    return value if isinstance(value, Form) else num(Fraction(value))


def _is_number(form: Form) -> bool:
    (lin, *more), *clauses = form.clauses
    return not more and not clauses and not any(value and name for name, value in lin.terms.items())


def _number(form: Form) -> Fraction:
    assert _is_number(form)
    return form.clauses[0][0].terms.get("", Fraction(0))


def sym(name: str) -> Form:
    """One symbol."""
    return Form(((Lin({name: Fraction(1)}),),))


def num(value: str | Fraction) -> Form:
    """One number."""
    return Form(((Lin({"": Fraction(value)}),),))


def least(*forms: Form | Fraction) -> Form:
    return Form(tuple(clause for form in forms for clause in _form(form).clauses))


def greatest(*forms: Form | Fraction) -> Form:
    return Form(
        tuple(
            tuple(lin for clause in some for lin in clause)
            for some in product(*(_form(f).clauses for f in forms))
        )
    )


@dataclass(frozen=True)
class Edge:
    """Holds for a rung when one of its forms is not negative."""

    rung: int
    forms: tuple[Lin, ...]

    def slack(self, dims: Dims) -> Slack:
        return self.of([form.over(dims) for form in self.forms])

    @staticmethod
    def of(ranges: Sequence[Slack]) -> Slack:
        """From the ranges of its forms: it holds where one of them does."""
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
    rule: str = ""
    group: str = ""
    order: int = 0


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


def read_form(text: str, names: Mapping[str, Form]) -> Form:
    """As Python reads it, numbers as they are written."""
    quoted = _numbers_quoted(text)
    value = eval(quoted, {"__builtins__": {}}, {**names, "min": least, "max": greatest, "_n": num})
    assert isinstance(value, Form), text
    return value


def _numbers_quoted(text: str) -> str:
    """`0.35` becomes `_n("0.35")`: a float would not be the number as written."""
    out, i = "", 0
    while i < len(text):
        digits = text[i].isdigit() and not (i and (text[i - 1].isalnum() or text[i - 1] == "_"))
        j = i
        while digits and j < len(text) and (text[j].isdigit() or text[j] == "."):
            j += 1
        out += f'_n("{text[i:j]}")' if digits else text[i]
        i = j if digits else i + 1
    return out


def _limits(rule: Rule) -> list[tuple[int, str, str]]:
    """(rung, side, limit), a limit left out being that of the stricter rung."""
    found = []
    for side in ("low", "high"):
        last = None
        for rung, name in enumerate(RUNGS[:3]):
            last = (rule.get(name) or {}).get(side, last)
            if last is not None:
                found.append((rung, side, last))
    return found


@cache
def edges_of(
    clearance_text: str, limits: tuple[tuple[int, str, str], ...], seat: str, way: str, slides: bool
) -> tuple[tuple[Edge, ...], Form]:
    names = names_for(seat, way, slides)
    clearance = read_form(clearance_text, names)
    edges = []
    for rung, side, text in limits:
        limit = read_form(text, names)
        slack = clearance - limit if side == "low" else limit - clearance
        edges += [Edge(rung, clause) for clause in slack.clauses]
    return tuple(edges), clearance


def _first(edges: Sequence[Edge], holds: Sequence[bool]) -> int:
    """The best rung whose edges, and those of all looser rungs, hold."""
    failing = [edge.rung for edge, held in zip(edges, holds, strict=True) if not held]
    return max(failing, default=-1) + 1


def rungs_over(edges: Sequence[Edge], slacks: Sequence[Slack]) -> tuple[int, int]:
    """The best and the worst rung of edges whose slacks are given, in the same order."""
    best = _first(edges, [high is None or high >= 0 for _, _, high in slacks])
    worst = _first(edges, [low is not None and low >= 0 for low, _, _ in slacks])
    return best, worst


def weigh(edges: Sequence[Edge], clearance: Sequence[Clause], dims: Dims) -> Check:
    """The range of rungs of one check over its interval."""
    slacks = [edge.slack(dims) for edge in edges]
    best, worst = rungs_over(edges, slacks)
    aim = max(worst - 1, PROPER)
    # a slack is told only where every dimension of the check is known
    known = all(_known(form, dims) for edge in edges for form in edge.forms)
    middles = [middle for edge, (_, middle, _) in zip(edges, slacks, strict=True) if edge.rung >= aim]
    slack = min((s for s in middles if s is not None), default=None) if known else None
    return Check(best, worst, _value(clearance, dims), slack, edges=tuple(edges), over=dims)


def _known(form: Lin, dims: Dims) -> bool:
    """What is bounded by nothing but a number far beyond any joint was read by nobody."""
    return all(
        name in dims and dims[name][2] < NO_END for name, value in form.terms.items() if value and name
    )


def _value(clauses: Sequence[Clause], dims: Dims) -> Slack | None:
    """None where a dimension is not known."""
    if not all(_known(form, dims) for clause in clauses for form in clause):
        return None
    ranges = [[form.over(dims) for form in clause] for clause in clauses]
    low, middle, high = (min(max(r[i] for r in some) for some in ranges) for i in range(3))  # type: ignore[type-var]
    return low, middle, high


# Where the side plate rests.
STOP = "hold - t - ws"
SEAT = {
    "slip": STOP, "press-to-shoulder": "M", "press neighbours": f"min(b3, {STOP})", "press tried": "b3 + place",
    "press clip": STOP, "press riveted": "b3",
}  # fmt: skip


def seat_kind(words: Words) -> str:
    if words["plate_fit"] != "press":
        return words["plate_fit"]
    seat = words.get("seat", "neighbours")
    return "press riveted" if seat == "neighbours" and words["closure"] != "clip" else f"press {seat}"


def lies(words: Words, option: str) -> str:
    """Held in the middle by its seals; packed; free to shift, as all its neighbours of a plain chain are."""
    if option == "packed":
        return "packed"
    if words.get("seat") == "clip":
        return "shifts"
    if option == "fitted":
        return "centred"
    return "shifts" if words["kind"] == "sealed" else "plain"


MIDDLE = {"centred": "b3", "plain": "b3", "shifts": "b2b", "packed": "b2b + 2 * w"}
OTHER_SIDE = {
    "centred": "b3 / 2",
    "plain": "seat - b3 / 2",
    "shifts": "seat - b2b / 2",
    "packed": "seat - b2b / 2 - w",
}
NAMES = [
    "d3",
    "wb",
    "b2p",
    "b2b",
    "b3",
    "b4",
    "tc",
    "h2",
    "Fc",
    "d",
    "G",
    "gw",
    "gd",
    "L",
    "M",
    "t",
    "h",
    "f",
    "hs",
    "hd",
    "Fl",
    "k",
    "k0",
    "cs",
    "cm",
    "csp",
    "bw",
    "ks",
    "ge",
    "ws",
    "place",
    "s",
    "w",
    "p",
    "pl",
    "hold",
    "C",
    "Co",
    "Cu",
    "Cuo",
    "own_out",
    "own_out2",
]


def names_for(seat: str, way: str, slides: bool) -> dict[str, Form]:
    names = {name: sym(name) for name in NAMES}
    names["stop"] = read_form(STOP, names)
    names["seat"] = read_form(SEAT[seat], names)
    names["back"] = names["b3"] if slides else names["seat"]
    names["out"] = read_form(f"L - ({MIDDLE[way]} + b4) / 2", names)
    names["out2"] = read_form(f"f + hs - b4 / 2 + {OTHER_SIDE[way]}", names)
    return names


# A clip that was never thicker than twice what is left of it, or it is no-go anyway; bow that counts; a fixed plate like
# the side plate (common practice, no source).
TWICE, MOST_BOW, LIKE_SIDE = 2, Fraction("0.15"), Fraction("0.15")


def settled(known: Dims, words: Words) -> Dims:
    """With what follows from the readings: the clip in a stack, its bow, the stop, the far edge of the groove, ..."""
    dims = {**known, "ws": known.get("ws", (Fraction(0),) * 3)}
    dims |= _clip(known, words)
    if "f" not in dims and "t" in dims:
        low, middle, high = dims["t"]
        dims["f"] = (max(low - LIKE_SIDE, Fraction(0)), middle, high + LIKE_SIDE)
    dims |= _stops(dims, known)
    dims["wb"] = _worn(known, words)
    if "d3" in known and words.get("d3_is_old") == "yes":
        low, middle, high = known["d3"]
        dims["d3"] = (low, middle, high + _up(_elongation(known)[2] / 100 * known["p"][1]))
    dims |= {name: _own_out(known, words, name) for name in ("own_out", "own_out2")}
    return dims


def _clip(known: Dims, words: Words) -> dict[str, Interval]:
    if "clip_history" not in words:
        return {}
    low, middle, high = known.get("bow", (Fraction(0), Fraction(0), MOST_BOW))
    found: dict[str, Interval] = {"bw": (min(low, MOST_BOW), min(middle, MOST_BOW), min(high, MOST_BOW))}
    if "k" not in known:
        return found
    thin = known["k"]
    fresh = words.get("clip_recorded", words["clip_history"]) in ("new", "never-off")
    untold = thin[2] if fresh else TWICE * thin[2]
    # read thicker than new is read, whatever new clips are said to be
    most = max(known["k0"][2], thin[2]) if "k0" in known else untold
    found["ks"] = (thin[0], min(thin[1], most), most)
    # a new clip is as thick as it was when new
    if words.get("clip_recorded", words["clip_history"]) == "new" and "k0" not in known:
        found["k0"] = thin
    return found


def _stops(dims: Mapping[str, Interval], known: Dims) -> dict[str, Interval]:
    """Fixed plate to the near face of the clip pulled outward, and to the far edge of the groove: by reach and groove, or
    by the clip stop; where both are known what both allow, and the narrower one gives the middle."""
    found = {}
    holds = [_all(num("0") + sym("G") + sym("gw") - sym("ks"), dims), known.get("C_hold")]
    edges = [_all(sym("G") + sym("gw"), dims), known.get("C_edge")]
    for name, ways in (("hold", holds), ("ge", edges)):
        both = [way for way in ways if way is not None]
        if both:
            found[name] = _met(both)
    return found


def _all(form: Form, dims: Mapping[str, Interval]) -> Interval | None:
    low, middle, high = form.clauses[0][0].over(dims)
    return None if low is None or middle is None or high is None else (low, middle, high)


def _met(ways: Sequence[Interval]) -> Interval:
    low, high = max(way[0] for way in ways), min(way[2] for way in ways)
    if low > high:
        return ways[0]
    middle = min(ways, key=lambda way: way[2] - way[0])[1]
    return (low, min(max(middle, low), high), high)


def _elongation(known: Dims) -> Interval:
    """Per cent; of a chain nobody measured up to 5."""
    return known.get("el", (Fraction(0), Fraction(0), Fraction(5)))


def _worn(known: Dims, words: Words) -> Interval:
    """Half of what a pitch has grown by at the least, in whole nanometres."""
    if "el" not in known or "d3" not in known or words.get("d3_is_old") == "yes":
        return (Fraction(0),) * 3
    half = _down(known["el"][0] / 100 * known["p"][1] / 2)
    return (half, half, half)


MILLION = 10**6


def _down(value: Fraction) -> Fraction:
    return Fraction(floor(value * MILLION), MILLION)


def _up(value: Fraction) -> Fraction:
    return Fraction(ceil(value * MILLION), MILLION)


# far beyond any joint, mm
NO_END = Fraction(2**40, MILLION)


def _own_out(known: Dims, words: Words, name: str) -> Interval:
    """How far the joint the bike runs with sticks out, in whole nanometres rounded outward; never less than nothing, as
    the riveted heads clear the bike too."""
    nothing = Fraction(0)
    if words["own_joint"] in ("rivet", "endless"):
        return (nothing, nothing, nothing)
    inner = _own_inner(known, words)
    parts = ("oL",) if name == "own_out" else ("of", "ohs")
    if inner is None or any(part not in known for part in (*parts, "b4")):
        return (nothing, nothing, NO_END)
    side = [sum((known[part][i] for part in parts), nothing) for i in range(3)]
    (il, im, ih), (bl, bm, bh) = inner, known["b4"]
    if name == "own_out":
        ends = (side[0] - _up((ih + bh) / 2), side[1] - _down((im + bm) / 2), side[2] - _down((il + bl) / 2))
    else:
        ends = (
            side[0] + _down(il / 2) - _up(bh / 2),
            side[1] + _down(im / 2) - _down(bm / 2),
            side[2] + _up(ih / 2) - _down(bl / 2),
        )
    return (max(ends[0], nothing), max(ends[1], nothing), max(ends[2], nothing))


def _own_inner(known: Dims, words: Words) -> Interval | None:
    held, free = known.get("b3"), known.get("b2b")
    between = words.get("own_between", "fitted")
    if words["kind"] == "plain" or between == "fitted":
        return held
    if between == "bare":
        return free
    if held is None or free is None:
        return None
    return (min(held[0], free[0]), held[1], max(held[2], free[2]))


def size_word(link: str, chain: str, dims: Dims) -> str:
    """How a link of one size code stands to a chain of another: pitch, then series, then roller, then width."""
    (roller, width), (on_roller, on_width) = _size(link), _size(chain)
    if abs(dims["npl"][1] - dims["np"][1]) > Fraction("0.2"):
        return "other-pitch"
    if link == chain:
        return "same"
    if link.rstrip("H") == chain.rstrip("H"):
        return "heavy-on-standard" if link.endswith("H") else "standard-on-heavy"
    # codes with another roller differ by 0.7 mm or more, with another width by 1.5 mm or more
    if abs(roller - on_roller) > Fraction("0.5"):
        return "other-roller"
    return "wider-on-narrower" if width > on_width else "narrower-on-wider"


def _size(code: str) -> tuple[Fraction, Fraction]:
    roller, width = SIZES[code if code in SIZES else code.removesuffix("H")]
    return Fraction(roller), Fraction(width)


# Parts of which nothing of these is known count as not measured.
READ_OF_CHAIN, READ_OF_LINK = ("d3", "b2p", "b2b", "b3"), ("d", "G", "C_hold", "C_read", "L", "t")


def _thumb_word(dims: Dims, words: Words, size: str) -> str:
    if any(name in dims for name in READ_OF_CHAIN) and any(name in dims for name in READ_OF_LINK):
        return "measured"
    if size in ("narrower-on-wider", "other-roller", "other-pitch"):
        return "hopeless"
    return "possible" if size == "same" and words["made_for"] == words["kind"] else "makeshift"


def _joint_word(words: Words) -> str:
    if words["plate_fit"] != "slip" or words["own_joint"] == "clip-slip":
        return "as-strong"
    return "unknown" if words["own_joint"] == "unknown" else "weaker"


def _seal_word(words: Words) -> str:
    """A seal of another section passes where it was measured and covers the bush; then its squeeze alone judges it."""
    if words.get("seal_shape", "unknown") == "unknown" or words["chain_seal"] == "unknown":
        return "unknown"
    as_squeezed = words.get("seal_evidence") == "measured" and words.get("covers_bush") == "yes"
    if words["seal_shape"] == words["chain_seal"] and words["seal_shape"] != "other":
        return "same"
    if as_squeezed:
        return "as-squeezed"
    return "unknown" if words["seal_shape"] == words["chain_seal"] else "differs"


# Limits of elongation for a joint that is still ridden home, per cent (common practice, no source).
FAR_BEYOND = Fraction(3)


def _wear_word(known: Dims, words: Words) -> str:
    low, _, high = _elongation(known)
    limit = min(Fraction(words["wear_limit"]), FAR_BEYOND)
    least, most = ((end > limit) + (end > FAR_BEYOND) for end in (low, high))
    return {(0, 0): "within", (0, 1): "perhaps-beyond", (1, 1): "beyond", (1, 2): "perhaps-far-beyond",
            (2, 2): "far-beyond", (0, 2): "unknown"}[least, most]  # fmt: skip


def categories_of(known: Dims, words: Words) -> dict[str, str]:
    size = size_word(words["link_size"], words["chain_size"], known)
    return {
        "size": size,
        "thumb": _thumb_word(known, words, size),
        "kind": "same" if words["made_for"] == words["kind"] else "differs",
        "joint": _joint_word(words),
        "half": {"yes": "half", "no": "whole"}.get(words["half_link"], "unknown"),
        "condition": words["condition"],
        "flared": "flared" if words["flared"] == "yes" else "never",
        "plate-history": words["plate_history"],
        "height-seen": words["heights_seen"],
        "level": words.get("level", "not-looked"),
        "clip-history": words.get("clip_history", "unknown"),
        "bow": words.get("bow", "flat"),
        "wear": _wear_word(known, words),
        "chain-state": words["chain_state"],
        "rubs": words["rubs"],
        "manual": words["manual"],
        "seal": _seal_word(words),
        "bush-ring": {"yes": "covered", "no": "bare"}.get(words.get("covers_bush", "unknown"), "unknown"),
        "always": "always",
        "screw": "own",
        "tried": words["tried"],
    }


def cases_of(dims: Dims, words: Words, option: str) -> dict[str, str]:
    """The words that rules ask for in `when`."""
    seat = words.get("seat", "neighbours") if words["plate_fit"] == "press" else "made"
    both = "h" in dims and "h2" in dims
    return {
        "closure": words["closure"],
        "plate_fit": words["plate_fit"],
        "seat": seat,
        "spacers": words.get("spacers", "no"),
        "pin_kind": words.get("pin_kind", "unknown"),
        "chain_kind": words["kind"],
        "chain_seal": words.get("chain_seal", "unknown"),
        "seals": option,
        "room_read": "some" if "C" in dims else "none",
        "other_read": "some" if "Co" in dims else "none",
        "room_unread": _unread(words, option, "unread_room"),
        "other_unread": _unread(words, option, "unread_other"),
        "some_room_unread": "yes" if "yes" in (words["unread_room"], words["unread_other"]) else "no",
        "tensile": "known" if "Fl" in dims and "Fc" in dims else "unknown",
        "heights": "known" if both else words["heights_seen"],
    }


def _unread(words: Words, option: str, which: str) -> str:
    if words[which] == "no":
        return "none"
    as_ever = (
        option in ("fitted", "none") and words.get("seat") != "clip" and words.get("spacers", "no") == "no"
    )
    return "own-link" if words.get("runs_with") == "yes" and as_ever else "other-link"


def grounds_of(known: Dims, words: Words, option: str) -> set[str]:
    """Evidence that makes a check proper where readings leave it open."""
    found = set()
    as_made = (
        words["by_make"] == "yes" and option in ("fitted", "none") and words.get("own_clip", "yes") == "yes"
        and words.get("own_seals", "yes") == "yes" and words.get("seat") != "clip" and words.get("spacers", "no") == "no"
    )  # fmt: skip
    unworn = _wear_word(known, words) == "within"
    if as_made:
        found |= {"make", *(("make-unworn",) if unworn else ())}
        found |= {"own-make"} if words.get("own_make") == "yes" else set()
        roomy = {
            side for side, name in (("clip", "C"), ("other", "Co")) if name in known and known[name][0] >= 3
        }
        found |= {"make-roomy"} if "other" in roomy else set()
        found |= {"own-make-roomy"} if "clip" in roomy and "own-make" in found else set()
    if words.get("packet") == "yes":
        found.add("packet")
    if words.get("play") == "no-more" and unworn:
        found.add("play")
    return found


def checks_of(known: Dims, words: Words, option: str, rules: Rules) -> dict[str, Check]:
    """Every check that applies to the pair with this option, in the order of the rules."""
    dims = settled(known, words)
    cases = cases_of(dims, words, option)
    sits = (seat_kind(words), lies(words, option), words["plate_fit"] == "slip")
    told, grounds = categories_of(known, words), grounds_of(known, words, option)
    stopped = size_word(words["link_size"], words["chain_size"], known) == "other-pitch"
    out: dict[str, Check] = {}
    for order, (id_, rule) in enumerate(rules.items()):
        if (stopped and id_ not in ASKED_OF_OTHER_PITCH) or not _applies(rule, cases):
            continue
        if "category" in rule:
            best, worst = _range(rule["rungs"][told[rule["category"]]])
            check = Check(best, worst, worded=True)
        else:
            edges, clearance = edges_of(rule["clearance"], tuple(_limits(rule)), *sits)
            check = weigh(edges, clearance.clauses, dims)
        proven = check.best == PROPER and bool(grounds & set(_list(rule.get("by", []))))
        worst = PROPER if proven else check.worst
        out[rule.get("check", id_)] = Check(
            check.best, worst, check.clearance, check.slack, check.worded, check.edges, check.over, id_, rule["group"], order
        )  # fmt: skip
    return out


def _applies(rule: Rule, cases: Words) -> bool:
    return all(cases[name] in _list(words) for name, words in rule.get("when", {}).items())


def _list(value: Any) -> list[str]:
    return [value] if isinstance(value, str) else list(value)


def _range(words: Any) -> tuple[int, int]:
    ranks = [RUNGS.index(word) for word in _list(words)]
    return min(ranks), max(ranks)


def added_up(checks: Mapping[str, Check], side: str) -> int:
    """The worst check; four groups or more at get-home make last-resort."""
    worst: int = max(getattr(check, side) for check in checks.values())
    groups = {c.group for c in checks.values() if getattr(c, side) >= GET_HOME and c.group != NO_GROUP}
    return max(worst, LAST_RESORT) if len(groups) >= 4 else worst


def _rank(item: tuple[str, Check]) -> tuple[int, int, bool, Fraction, int]:
    check = item[1]
    return (-check.worst, -check.best, check.slack is None, check.slack or Fraction(0), check.order)


def judge(dims: Dims, words: Words, option: str, rules: Rules) -> Joint:
    """One pair with one option; `plate_fit` must be known (a caller splits the cases)."""
    checks = checks_of(dims, words, option, rules)
    deciding = min(checks.items(), key=_rank)[0]
    return Joint(option, added_up(checks, "best"), added_up(checks, "worst"), deciding, checks)


Rank = tuple[int, int, bool, int, int, bool, int, Fraction]


def rank(joint: Joint, words: Words) -> Rank:
    """Worst rung, best rung, tried before untried, seals as made and plate as made before makeshifts, a fresh clip before
    a used one, then the larger slack of the deciding check: a yes-or-no check counts as nothing to spare, one with a
    missing dimension comes last."""
    deciding = joint.checks[joint.deciding]
    unknown = deciding.slack is None and not deciding.worded
    makeshift = (words.get("seat") == "clip") + (words.get("spacers", "no") == "yes")
    fresh = words.get("clip_history", "unknown") in ("new", "never-off")
    return (
        joint.worst, joint.best, words["tried"] != "went-together", OPTIONS.index(joint.option), makeshift, not fresh,
        int(unknown), Fraction(0) if unknown else -(deciding.slack or Fraction(0)),
    )  # fmt: skip


def pair_range(joints: Sequence[Joint]) -> tuple[int, int]:
    """Best of bests and best of worsts over the options."""
    return min(joint.best for joint in joints), min(joint.worst for joint in joints)


def refused(dims: Dims, words: Words) -> str | None:
    """Why no verdict is given, or None."""
    for name in ("link_size", "chain_size", "kind", "made_for", "plate_fit", "condition"):
        if words[name] == "unknown":
            return f"{name} is not known"
    if "modified" in (words["condition"], words["chain_state"]):
        return "a part is modified"
    if (
        words["kind"] == "plain"
        and "b3" in dims
        and "b2b" in dims
        and dims["b3"][0] - dims["b2b"][2] > Fraction("0.6")
    ):
        return "it looks sealed"
    used = words["condition"] in ("fitted-once", "fitted-twice")
    if (
        words["closure"] == "rivet"
        and words["flared"] == "unknown"
        and used
        and words["runs_with_now"] == "no"
    ):
        return "flared or not"
    return None
