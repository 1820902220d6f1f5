"""A strip as the chain it is let into: what a link's second pin meets."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.compute.fit.result import CheckFit
from generator.model.chain_parts import Chain, Strip
from generator.model.dataset import Dataset, Part
from generator.model.reading import Reading
from generator.model.tools_and_bikes import Bike

# read on the whole chain; the strip runs between the same rivet heads and guides
OF_THE_LOOP = ("over_riveted_pins", "plate_height", "tensile")
# one inner link alone has no outer plates: its neighbours are those of the chain
OF_OUTER_PLATES = ("between_outer_plates", "over_outer_plates", "plate_thickness")


@dataclass(frozen=True, slots=True)
class Splice:
    """A strip let into a chain."""

    strip: Part[Strip]
    chain: Part[Chain]

    @property
    def id(self) -> str:
        """Of the strip as a chain; no record can have such an id."""
        return f"{self.strip.id}@{self.chain.id}"

    @property
    def lent(self) -> tuple[str, ...]:
        """The dimensions that are those of the chain."""
        return OF_THE_LOOP if self.strip.record.pitches > 1 else OF_THE_LOOP + OF_OUTER_PLATES


def strips_as_chains(dataset: Dataset, splices: Sequence[Splice]) -> tuple[Dataset, tuple[Part[Chain], ...]]:
    """In the order of the splices, and what their joints are judged in: bikes run them too, and no dry fit was done on
    a strip.  The club's own chains stay, as they say which links are in use."""
    seen = replace(dataset, bikes=dict(_bikes(dataset, splices)), trials={})
    return seen, tuple(_as_chain(splice) for splice in splices)


def _as_chain(splice: Splice) -> Part[Chain]:
    strip, chain = splice.strip, splice.chain
    own = {field: dim for field, dim in strip.dims.items() if field in Chain.model_fields}
    lent = {field: chain.dims[field] for field in splice.lent if field in chain.dims}
    outer = (strip if strip.record.pitches > 1 else chain).record.between_outer_plates
    record = chain.record.model_copy(
        update={
            "size_code": strip.record.size_code,
            "kind": strip.record.kind,
            "seal": strip.record.seal,
            "elongation": strip.record.elongation,
            "between_outer_plates": outer,
        }
    )
    return Part("strip", splice.id, record, own | lent)


def _bikes(dataset: Dataset, splices: Sequence[Splice]) -> Iterator[tuple[str, Part[Bike]]]:
    """The bikes of each chain run its splices too."""
    for splice in splices:
        for bike in dataset.bikes.values():
            if bike.record.chain == splice.chain.id:
                record = bike.record.model_copy(update={"chain": splice.id})
                yield f"{bike.id}@{splice.id}", replace(bike, record=record)


def named_rightly(check: CheckFit, splice: Splice) -> CheckFit:
    """The same check, its readings named as the strip's, or as the chain's where it lends them."""

    def each(readings: Iterable[Reading]) -> tuple[Reading, ...]:
        return tuple(right_name(reading, splice) for reading in readings)

    return replace(check, missing=each(check.missing), rests_on=each(check.rests_on))


def right_name(reading: Reading, splice: Splice) -> Reading:
    if reading.id != splice.id:
        return reading
    own = reading.field in Strip.model_fields and reading.field not in splice.lent
    part: Part[Strip] | Part[Chain] = splice.strip if own else splice.chain
    return Reading(part.kind, part.id, reading.field)
