"""A sentence whose lengths are still lengths, so that a page can show them in either unit."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from generator.model.quantity import NM_PER_MM
from generator.render.base.lengths import ShownLength, shown_high, shown_length, shown_low

# which end of an interval a number is, if it is one
End = Literal["low", "high", "no end"]

Said = tuple[str | ShownLength, ...]

_MOST_DECIMALS = 6


def plain(said: Said) -> str:
    """As one text in millimetres, for places that cannot switch."""
    return "".join(piece if isinstance(piece, str) else piece.mm for piece in said)


def capital(text: str) -> str:
    """The first letter a capital, the others as they are."""
    return text[:1].upper() + text[1:]


def small(text: str) -> str:
    """The first letter a small one, the others as they are."""
    return text[:1].lower() + text[1:]


def joined(sentences: Iterable[Said], between: str = " ") -> Said:
    """Several sentences as one."""
    pieces: list[str | ShownLength] = []
    for sentence in sentences:
        if sentence:
            pieces.extend((between, *sentence) if pieces else sentence)
    return tuple(pieces)


@dataclass(frozen=True, slots=True)
class Figures:
    """How many decimals it takes for different values of one sentence not to look the same."""

    decimals: int = 2

    def length(self, nanometres: float) -> ShownLength:
        return shown_length(round(nanometres), self.decimals)

    def amount(self, nanometres: float, end: End = "no end") -> ShownLength:
        """Without its sign, which the words around it carry; an end of an interval is shown outward."""
        if end == "no end":
            return shown_length(abs(round(nanometres)), self.decimals)
        # of what lies below nothing the lower end is the greater amount
        grows = (end == "low") == (nanometres < 0)
        return (shown_high if grows else shown_low)(abs(nanometres), self.decimals)

    def ends(self, low: float, high: float) -> Said:
        """`0.12 mm to 0.18 mm`: both ends of an interval on one side of nothing, the nearer one first."""
        near, far = sorted((abs(low), abs(high)))
        return (shown_low(near, self.decimals), " to ", shown_high(far, self.decimals))


def figures_for(values: Iterable[float], least: int = 2) -> Figures:
    """Two decimals of a millimetre, more where two values that differ would be printed alike."""
    whole = sorted({round(value) for value in values})
    decimals = least
    while decimals < _MOST_DECIMALS and len({_printed(v, decimals) for v in whole}) < len(whole):
        decimals += 1
    return Figures(decimals)


def _printed(nanometres: int, decimals: int) -> int:
    step: int = NM_PER_MM // 10**decimals
    return (abs(nanometres) + step // 2) // step * (1 if nanometres >= 0 else -1)
