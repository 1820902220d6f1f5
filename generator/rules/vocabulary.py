"""What the names of a joint's rules stand for, by where its side plate sits and how it lies between the bushes."""

import re
from collections.abc import Iterable, Mapping, Set
from functools import cache

from generator.model.shipped import Rule
from generator.rules.forms import Tree, Vocabulary, dimension, parse_form
from generator.rules.symbols import SYMBOLS

_NAME = re.compile(r"[A-Za-z_][A-Za-z_0-9]*")
# what a limit calls by a short name, and what that is made of
MACROS: Mapping[str, str] = {
    "stop": "widest inside width at which this clip still enters and holds: reach + groove − clip − side plate",
    "seat": "where the side plate rests: the stop if it slides on or is pressed to the clip, its shoulder, the "
    "neighbours' width, or where it was seen to be pressed",
    "back": "what the clip stands behind: the neighbour's width if the plate slides on, else the seat",
    "out": "how far the pins reach beyond the riveted heads, clip side",
    "out2": "how far the heads of the link reach beyond the riveted heads, other side",
}
# where the side plate goes; tried: as the last dry fit that pressed it saw it
SEATS = ("made", "neighbours", "tried", "clip")
# how the joint lies between its bushes: held in the middle by its seals, free to shift to one side, packed with
# washers, or free as all its neighbours of a plain chain are
LIES = ("centred", "shifts", "packed", "plain")
_STOP = "hold - t - ws"
_SEATS = {
    "slip": _STOP,
    "press-to-shoulder": "M",
    "neighbours": f"min(b3, {_STOP})",
    "tried": "b3 + place",
    "clip": _STOP,
    "rivet": "b3",
}
_OUT = {
    "centred": "L - (b3 + b4) / 2",
    "plain": "L - (b3 + b4) / 2",
    "shifts": "L - (b2b + b4) / 2",
    "packed": "L - (b2b + 2 * w + b4) / 2",
}
_OUT2 = {
    "centred": "f + hs - b4 / 2 + b3 / 2",
    "plain": "f + hs - b4 / 2 + seat - b3 / 2",
    "shifts": "f + hs - b4 / 2 + seat - b2b / 2",
    "packed": "f + hs - b4 / 2 + seat - b2b / 2 - w",
}


@cache
def dimensions() -> Mapping[str, Tree]:
    """Every name that is no macro."""
    return {name: dimension(name) for name in SYMBOLS}


def seat_of(plate_fit: str, seat: str, clipped: bool) -> str:
    """Which of the ways to seat a plate this is."""
    if plate_fit != "press":
        return plate_fit
    return "rivet" if seat == "neighbours" and not clipped else seat


@cache
def words_for(
    plate_fit: str, seat: str = "neighbours", lies: str = "centred", clipped: bool = True
) -> Vocabulary:
    """What each name in a rule stands for."""
    words = dict(dimensions())
    words["stop"] = parse_form(_STOP, words)
    words["seat"] = parse_form(_SEATS[seat_of(plate_fit, seat, clipped)], words)
    words["back"] = words["b3"] if plate_fit == "slip" else words["seat"]
    words["out"] = parse_form(_OUT[lies], words)
    words["out2"] = parse_form(_OUT2[lies], words)
    return Vocabulary(words)


# the macros that depend on where the plate sits, and on how the joint lies
_BY_SEAT, _BY_LIE = frozenset(("seat", "back", "out2")), frozenset(("out", "out2"))


def names_in(texts: Iterable[str]) -> frozenset[str]:
    """What the texts of a rule speak of."""
    return frozenset(name for text in texts for name in _NAME.findall(text))


def words_in(names: Set[str], plate_fit: str, seat: str, lies: str, clipped: bool) -> Vocabulary:
    """The same as words_for as far as these names go, one for all joints that they read alike in."""
    if not names & _BY_LIE:
        lies = LIES[0]
    if not names & _BY_SEAT:
        plate_fit, seat, clipped = "press", "neighbours", True
    return words_for(plate_fit, seat, lies, clipped)


def checks_by_field(rules: Mapping[str, Rule]) -> Mapping[str, tuple[str, ...]]:
    """By `kind.field`, the checks whose rule names that dimension itself, in rule order."""
    found: dict[str, dict[str, None]] = {}
    for id_, rule in rules.items():
        for name in sorted(names_in(rule.forms) & SYMBOLS.keys()):
            symbol = SYMBOLS[name]
            if symbol.field is not None:
                found.setdefault(f"{symbol.parts[0]}.{symbol.field}", {})[rule.check or id_] = None
    return {field: tuple(checks) for field, checks in found.items()}
