"""A length as a reader sees it, in millimetres and in inches, both in the page.

Goes in: whole nanometres.  Comes out: two texts with their units.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from generator.model.quantity import NM_PER_INCH, NM_PER_MM

MINUS = "\N{MINUS SIGN}"
_MOST_DECIMALS = 8  # a nanometre in inches

# where the last digit shown goes: the ends of an interval go outward, so that what is shown covers what is known
Toward = Literal["nearest", "down", "up"]
_ROUND: Mapping[Toward, Callable[[Fraction], int]] = {"nearest": round, "down": floor, "up": ceil}


@dataclass(frozen=True, slots=True)
class ShownLength:
    """The same length twice; a switch shows one of them.  `nm` is the exact value, for downloads."""

    mm: str
    inch: str
    nm: int


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
    whole = _ROUND[toward]
    while value and not whole(value * 10**decimals) and decimals < _MOST_DECIMALS:
        decimals += 1
    scaled = whole(value * 10**decimals)
    sign = MINUS if scaled < 0 else ""
    before, after = divmod(abs(scaled), 10**decimals)
    return f"{sign}{before}.{after:0{decimals}d}"
