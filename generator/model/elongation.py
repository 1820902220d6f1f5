"""How much longer than new a chain has become, from a length read over some of its pitches."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.model.dataset import SizeCodeEntry
from generator.model.quantity import PPM_OF_PERCENT, Quantity


@dataclass(frozen=True, slots=True)
class Elongation:
    """Per cent of the nominal length: 100 (M - n p) / (n p), an interval low <= nominal <= high."""

    low: Fraction
    nominal: Fraction
    high: Fraction

    @property
    def plus_minus(self) -> Fraction:
        return max(self.high - self.nominal, self.nominal - self.low)


def elongation_of(inside: Quantity, outside: Quantity, pitches: int, pitch: int) -> Elongation:
    """M is the mean of the inside and the outside of the end rollers, which takes the rollers out of it; `pitch` in nm.

    All wear shows over outer links, so an odd count of pitches has half a link too many or too few of them:
    that adds elongation / n to the ±.
    """
    new, both = pitches * pitch, inside + outside
    low, nominal, high = (
        Fraction(100 * (end - 2 * new), 2 * new) for end in (both.low, both.nominal, both.high)
    )
    odd = abs(nominal) / pitches if pitches % 2 else Fraction(0)
    return Elongation(low - odd, nominal, high + odd)


def in_per_cent(ppm: Quantity) -> Elongation:
    """The elongation of a chain as a dataset keeps it."""
    return Elongation(*(Fraction(end, PPM_OF_PERCENT) for end in (ppm.low, ppm.nominal, ppm.high)))


def pitch_of_size(sizes: Mapping[str, SizeCodeEntry], code: str) -> int | None:
    """The nominal pitch of a size code in nm, None where the code is not in the tables."""
    size = sizes.get(code)
    return size.dims["pitch"].nominal if size is not None else None
