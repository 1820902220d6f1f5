"""How much longer than new a chain has become, from a length read over some of its pitches."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.model.dataset import SizeCodeEntry, WearReading


@dataclass(frozen=True, slots=True)
class Elongation:
    """Per cent of the nominal length: 100 (M - n p) / (n p), an interval low <= nominal <= high."""

    low: Fraction
    nominal: Fraction
    high: Fraction

    @property
    def plus_minus(self) -> Fraction:
        return max(self.high - self.nominal, self.nominal - self.low)


def elongation_of(reading: WearReading, pitch: int) -> Elongation:
    """M is the mean of the inside and the outside of the end rollers, which takes the rollers out of it; `pitch` in nm.

    All wear shows over outer links, so an odd count of pitches has half a link too many or too few of them:
    that adds elongation / n to the ±.
    """
    new = reading.pitches * pitch
    low, nominal, high = (
        Fraction(100 * (getattr(reading.inside, end) + getattr(reading.outside, end) - 2 * new), 2 * new)
        for end in ("low", "nominal", "high")
    )
    odd = abs(nominal) / reading.pitches if reading.pitches % 2 else Fraction(0)
    return Elongation(low - odd, nominal, high + odd)


def newest_elongations(
    log: Iterable[WearReading], pitch_of: Mapping[str, int]
) -> dict[str, tuple[WearReading, Elongation]]:
    """Of each chain with a known pitch, the worst place on its newest day; the earlier line where two are alike."""
    newest: dict[str, tuple[WearReading, Elongation]] = {}
    for reading in sorted(log, key=lambda each: (each.on, -each.line)):
        if reading.chain not in pitch_of:
            continue
        found = elongation_of(reading, pitch_of[reading.chain])
        before = newest.get(reading.chain)
        if before is None or before[0].on < reading.on or before[1].nominal <= found.nominal:
            newest[reading.chain] = (reading, found)
    return newest


def pitch_of_size(sizes: Mapping[str, SizeCodeEntry], code: str) -> int | None:
    """The nominal pitch of a size code in nm, None where the code is not in the tables."""
    size = sizes.get(code)
    return size.dims["pitch"].nominal if size is not None else None
