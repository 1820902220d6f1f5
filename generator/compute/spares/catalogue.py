"""Everything that could be carried, numbered: bags made up ready, single parts, tools with their keys."""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from generator.compute.repair.planner import parts_of_bag
from generator.compute.repair.result import Bag
from generator.compute.spares.age import too_old
from generator.compute.spares.problem import Item, PartKey, Stock
from generator.model.dataset import Dataset, Part
from generator.model.record import Record

# grams, where nobody weighed it; common practice, no source
USUAL_MASS = {"link": 15, "clip": 1, "seal": 1, "plate": 4, "strip": 13, "tool": 200}
MG_PER_G = 1000
# of one kind at most so many are put on the list to buy
MOST_BOUGHT = 4
FOLDERS = {
    "link": "links",
    "clip": "clips",
    "seal": "seals",
    "plate": "plates",
    "strip": "strips",
    "tool": "tools",
}
# what is carried: the bag itself, or the kind and id of a single part
Carry = Bag | PartKey


@dataclass
class Catalogue:
    """Items get their numbers as demands ask for them; `buying` lets parts that have a cost be bought."""

    dataset: Dataset
    buying: bool
    things: list[Carry] = field(default_factory=list)
    numbers: dict[Carry, int] = field(default_factory=dict)

    def number(self, thing: Carry) -> int:
        if thing not in self.numbers:
            self.numbers[thing] = len(self.things)
            self.things.append(thing)
        return self.numbers[thing]

    def tool(self, id_: str) -> int:
        """The tool, and its key after it."""
        at = self.number(("tool", id_))
        key = self.dataset.tools[id_].record.key
        if key is not None:
            self.number(("tool", key))
        return at

    def items(self) -> tuple[Item, ...]:
        return tuple(self._item(thing) for thing in self.things)

    def parts(self, thing: Carry) -> tuple[tuple[PartKey, int], ...]:
        """The club's parts in it."""
        if isinstance(thing, Bag):
            return tuple(((part.kind, part.id), part.count) for part in parts_of_bag(thing))
        return ((thing, 1),)

    def _item(self, thing: Carry) -> Item:
        parts = self.parts(thing)
        mass = sum(self.mass(part) * count for part, count in parts)
        tool = isinstance(thing, tuple) and thing[0] == "tool"
        key = self.dataset.tools[parts[0][0][1]].record.key if tool else None
        return Item(parts, mass, not tool, self.numbers[("tool", key)] if key is not None else None)

    def part(self, key: PartKey) -> Part[Record]:
        found: Part[Record] = getattr(self.dataset, FOLDERS[key[0]])[key[1]]
        return found

    def mass(self, key: PartKey) -> int:
        """In mg, at the heaviest; never nothing, so that a needless piece always weighs."""
        part = self.part(key)
        read = part.dims.get("mass")
        pitches = getattr(part.record, "pitches", 1)
        return max(1, read.high if read is not None else self.usual_mass(key[0], pitches))

    @staticmethod
    def usual_mass(kind: str, pitches: int = 1) -> int:
        return USUAL_MASS[kind] * pitches * MG_PER_G

    @cached_property
    def _old(self) -> frozenset[str]:
        return frozenset(id_ for id_, seal in self.dataset.seals.items() if too_old(self.dataset, seal))

    def stock(self) -> dict[PartKey, Stock]:
        """What is too old to fit counts as gone."""
        keys = sorted({key for thing in self.things for key, _ in self.parts(thing)})
        return {key: self._stock(key) for key in keys}

    def _stock(self, key: PartKey) -> Stock:
        record = self.part(key).record
        count: int = getattr(record, "count", 1)
        written = getattr(record, "cost", None)
        cost = int(Fraction(written) * 100) if written not in (None, "unknown") else None
        gone = key[0] == "seal" and key[1] in self._old
        buyable = MOST_BOUGHT if self.buying and cost is not None and key[0] != "tool" else 0
        return Stock(0 if gone else count, buyable, cost or 0)
