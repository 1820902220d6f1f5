"""A length as a reader sees it, in millimetres and in inches, both in the page."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import Literal

from generator.model.quantity import NM_PER_INCH, NM_PER_MM

MINUS = "\N{MINUS SIGN}"
_MOST_DECIMALS = 8  # a nanometre in inches

# where the last digit shown goes: the ends of an interval go outward, so that what is shown covers what is known
Toward = Literal["nearest", "down", "up"]


@dataclass(frozen=True, slots=True)
class ShownLength:
    """The same length twice; a switch shows one of them.  `nm` is the exact value, for downloads."""

    mm: str
    inch: str
    nm: int


@lru_cache(maxsize=1 << 15)  # the pages of a handbook show the same lengths over and over
def shown_length(nm: int, decimals: int = 2, toward: Toward = "nearest") -> ShownLength:
    """Hundredths of a millimetre, and the ten-thousandths of an inch that go with them."""
    millimetres = fixed(Fraction(nm, NM_PER_MM), decimals, toward)
    inches = fixed(Fraction(nm, NM_PER_INCH), decimals + 2, toward)
    return ShownLength(f"{millimetres} mm", f"{inches} in", nm)


def signed(number: int) -> str:
    """A whole number with a true minus sign."""
    return f"{MINUS}{-number}" if number < 0 else str(number)


def shown_low(nanometres: float, decimals: int = 2) -> ShownLength:
    """The lower end of an interval, never shown above where it is."""
    return shown_length(floor(nanometres), decimals, "down")


def shown_high(nanometres: float, decimals: int = 2) -> ShownLength:
    """The upper end of an interval, never shown below where it is."""
    return shown_length(ceil(nanometres), decimals, "up")


def shown_span(low: int, high: int) -> ShownLength:
    """Both ends of an interval in one, `11.20 to 11.30 mm`; one length where they look the same.  `nm` is the lower."""
    ends = shown_low(low), shown_high(high)
    if ends[0].mm == ends[1].mm:
        return shown_length(low)
    mm, inch = ends[0].mm.removesuffix(" mm"), ends[0].inch.removesuffix(" in")
    return ShownLength(f"{mm} to {ends[1].mm}", f"{inch} to {ends[1].inch}", low)


def fixed(value: Fraction, decimals: int, toward: Toward = "nearest") -> str:
    """With so many decimals, or as many more as it takes for a value beside zero not to read as zero."""
    # whole numbers all the way, which takes a fraction of the time that fractions take
    above, below = value.numerator, value.denominator
    while above and not _whole(above * 10**decimals, below, toward) and decimals < _MOST_DECIMALS:
        decimals += 1
    scaled = _whole(above * 10**decimals, below, toward)
    sign = MINUS if scaled < 0 else ""
    before, after = divmod(abs(scaled), 10**decimals)
    return f"{sign}{before}.{after:0{decimals}d}"


def _whole(above: int, below: int, toward: Toward) -> int:
    """The quotient as a whole number; halfway between two the even one is the nearest."""
    down, rest = divmod(above, below)
    if toward == "nearest":
        return down + (2 * rest > below or (2 * rest == below and down % 2 == 1))
    return down if toward == "down" else down + (rest > 0)
