"""A length as a reader sees it, in millimetres and in inches, both in the page.

Goes in: whole nanometres.  Comes out: two texts with their units.
"""

from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import NM_PER_INCH, NM_PER_MM

MINUS = "\N{MINUS SIGN}"
_MOST_DECIMALS = 6  # a nanometre in millimetres


@dataclass(frozen=True, slots=True)
class ShownLength:
    """The same length twice; a switch shows one of them.  `nm` is the exact value, for downloads."""

    mm: str
    inch: str
    nm: int


def shown_length(nm: int, decimals: int = 2) -> ShownLength:
    """Hundredths of a millimetre, and the ten-thousandths of an inch that go with them."""
    millimetres = fixed(Fraction(nm, NM_PER_MM), decimals)
    inches = fixed(Fraction(nm, NM_PER_INCH), decimals + 2)
    return ShownLength(f"{millimetres} mm", f"{inches} in", nm)


def signed(number: int) -> str:
    """A whole number with a true minus sign."""
    return f"{MINUS}{-number}" if number < 0 else str(number)


def fixed(value: Fraction, decimals: int) -> str:
    """With so many decimals, or as many more as it takes for a value beside zero not to read as zero."""
    while value and not round(abs(value) * 10**decimals) and decimals < _MOST_DECIMALS:
        decimals += 1
    scaled = round(abs(value) * 10**decimals)
    sign = MINUS if value < 0 and scaled else ""
    whole, part = divmod(scaled, 10**decimals)
    return f"{sign}{whole}.{part:0{decimals}d}"
