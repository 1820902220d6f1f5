"""A dimension is an interval with its origin, never a bare number.

Lengths are whole nanometres (int), forces whole millinewtons; an end that is not whole is
rounded outward, so an interval never promises more than was read.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

Evidence = Literal["measured", "stated", "published", "common-practice", "from-memory", "unknown"]

# strongest first; a result is as good as its weakest input
EVIDENCE_ORDER: tuple[Evidence, ...] = (
    "measured",
    "stated",
    "published",
    "common-practice",
    "from-memory",
    "unknown",
)

# parts per million in a per cent
PPM_OF_PERCENT = 10_000
NM_PER_MM = 1_000_000
MN_PER_KN = 1_000_000  # millinewtons
NM_PER_INCH = 25_400_000


@dataclass(frozen=True, slots=True)
class Quantity:
    """An interval low <= nominal <= high in whole base units, and where it comes from.

    `source` cites `id[place]`; `text` is the value as written by its author.
    """

    low: int
    nominal: int
    high: int
    evidence: Evidence = "measured"
    source: str | None = None
    text: str = ""

    def __post_init__(self) -> None:
        if not self.low <= self.nominal <= self.high:
            raise ValueError(f"not an interval: {self.low} {self.nominal} {self.high}")

    @property
    def half_width(self) -> int:
        """Half of high - low, rounded up."""
        return -((self.low - self.high) // 2)

    def __add__(self, other: "Quantity") -> "Quantity":
        return Quantity(
            self.low + other.low,
            self.nominal + other.nominal,
            self.high + other.high,
            weakest((self.evidence, other.evidence)),
        )

    def __neg__(self) -> "Quantity":
        return Quantity(-self.high, -self.nominal, -self.low, self.evidence, self.source, self.text)

    def __sub__(self, other: "Quantity") -> "Quantity":
        return self + -other

    def meet(self, other: "Quantity") -> "Quantity | None":
        """What both allow, or None where they contradict; the narrower one gives the nominal.

        As good as the better of those that give both ends alone, else as the weaker one."""
        low, high = max(self.low, other.low), min(self.high, other.high)
        if low > high:
            return None
        narrow = min(self, other, key=lambda q: q.high - q.low)
        whole = [q.evidence for q in (self, other) if (q.low, q.high) == (low, high)]
        evidence = strongest(whole) if whole else weakest((self.evidence, other.evidence))
        nominal = min(max(narrow.nominal, low), high)
        return Quantity(low, nominal, high, evidence, narrow.source, narrow.text)


def strongest(evidence: Iterable[Evidence]) -> Evidence:
    """The strongest evidence word of one or more."""
    return min(evidence, key=EVIDENCE_ORDER.index)


def weakest(evidence: Iterable[Evidence]) -> Evidence:
    """The weakest evidence word of several; `measured` for none."""
    return max(evidence, key=EVIDENCE_ORDER.index, default="measured")


def outward(low: Fraction, nominal: Fraction, high: Fraction) -> tuple[int, int, int]:
    """Exact ends as whole base units, rounded away from the middle."""
    whole_low, whole_high = floor(low), ceil(high)
    return whole_low, min(max(round(nominal), whole_low), whole_high), whole_high


def mm(nanometres: int) -> float:
    """A length for people and JSON: millimetres with at most six decimals."""
    return nanometres / NM_PER_MM
