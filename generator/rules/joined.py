"""The parts of one way to join a pair, and the readings behind a dimension of theirs."""

from dataclasses import dataclass
from fractions import Fraction

from generator.model.chain_parts import Chain, Clip, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.model.reading import Reading

ONE = Fraction(1)
# nm, far beyond any joint; what is not known lies somewhere below
NO_END = 2**40
# the parts of an option, in the order in which they are combined
Parts = tuple[str, ...]
PARTS: Parts = ("chain", "link", "clip", "seals", "seal_set", "seat", "spacer")


@dataclass(frozen=True, slots=True)
class Behind:
    """One reading behind a symbol; the symbol moves `weight` times as far as the reading does."""

    reading: Reading
    weight: Fraction
    quantity: Quantity | None


@dataclass(frozen=True, slots=True)
class Joined:
    """The parts of one option.  `seals` says what lies between the plates, `seat` where the side plate goes: as made,
    to the neighbours or to the clip; `spacer` is a washer under the clip on each pin."""

    dataset: Dataset
    chain: Part[Chain]
    link: Part[Link]
    clip: Part[Clip] | None = None
    seal_set: Part[SealSet] | None = None
    seals: str = "fitted"
    seat: str = "made"
    spacer: Part[SealSet] | None = None


def of_part(
    part: Part[Chain] | Part[Link] | Part[Clip] | Part[SealSet], field: str, weight: Fraction = ONE
) -> Behind:
    """A reading of a part as it stands in its record."""
    return Behind(Reading(part.kind, part.id, field), weight, part.dims.get(field))
