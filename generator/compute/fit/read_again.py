"""One reading of a joint taken again: what every symbol of its rules would then be."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any, TypeVar

from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.model.record import Record
from generator.rules.joined import Joined
from generator.rules.symbols import SYMBOLS
from generator.validate.measure import with_between_outer_plates

R = TypeVar("R", bound=Record)
# where a reading of each kind is looked up
TABLES = {"chain": "chains", "link": "links", "clip": "clips", "seal": "seals", "bike": "bikes"}


class SymbolsIf(Mapping[str, Quantity | None]):
    """By name of the symbol, through the same functions as the columns of all options, so that both say the same.
    Worked out when asked for: of some forty symbols a guess needs a few."""

    def __init__(self, parts: Joined, again: Mapping[Reading, Quantity]) -> None:
        for reading, value in again.items():
            parts = _joined_if(parts, reading, value)
        self._parts = parts
        self._kinds = {reading.kind for reading in again}
        self._known: dict[str, Quantity | None] = {}

    def __contains__(self, name: object) -> bool:
        return not self._kinds.isdisjoint(_rests_on(str(name)))

    def __getitem__(self, name: str) -> Quantity | None:
        if name not in self._known:
            self._known[name] = SYMBOLS[name].value(self._parts)
        return self._known[name]

    def __iter__(self) -> Iterator[str]:
        return (name for name in SYMBOLS if name in self)

    def __len__(self) -> int:
        return sum(1 for _ in self)


@cache
def _rests_on(name: str) -> frozenset[str]:
    """The kinds of parts that have a say in a symbol."""
    parts = set(SYMBOLS[name].parts)
    found: set[str] = {kind for kind in ("chain", "link", "clip") if kind in parts}
    if parts & {"seal_set", "spacer"}:
        found.add("seal")
    return frozenset(found | set(SYMBOLS[name].through))


def _joined_if(parts: Joined, reading: Reading, value: Quantity) -> Joined:
    def of(part: Part[R]) -> Part[R]:
        return part_if(part, reading, value)

    return replace(
        parts,
        dataset=_dataset_if(parts.dataset, reading, value),
        chain=of(parts.chain),
        link=of(parts.link),
        clip=of(parts.clip) if parts.clip is not None else None,
        seal_set=of(parts.seal_set) if parts.seal_set is not None else None,
    )


def _dataset_if(dataset: Dataset, reading: Reading, value: Quantity) -> Dataset:
    """Bikes, and parts that are named in the records of others, are looked up in the dataset."""
    table = TABLES.get(reading.kind, "")
    known: Mapping[str, Part[Any]] = getattr(dataset, table, {})
    if reading.id not in known:
        return dataset
    changed: Mapping[str, Any] = {table: {**known, reading.id: part_if(known[reading.id], reading, value)}}
    return replace(dataset, **changed)


def part_if(part: Part[R], reading: Reading, value: Quantity) -> Part[R]:
    """As it is, where the reading is one of another part."""
    if (part.kind, part.id) != (reading.kind, reading.id):
        return part
    dims = {**part.dims, reading.field: value}
    if isinstance(part.record, Chain) and reading.field in ("over_outer_plates", "plate_thickness"):
        direct = part.record.between_outer_plates
        if direct is None or direct.is_unknown:
            # derived from what was just read again
            dims.pop("between_outer_plates", None)
            dims = with_between_outer_plates(dims)
    return replace(part, dims=dims)
