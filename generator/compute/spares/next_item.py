"""What one more piece would mend: of what runs out, keys that are gone, strips and chains that nobody keeps."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.compute.grouped import grouped
from generator.compute.repair.bench import made_up
from generator.compute.repair.counting import PITCHES_OUT
from generator.compute.repair.result import Case
from generator.compute.spares.catalogue import Carry, Catalogue
from generator.compute.spares.demands import Asked
from generator.compute.spares.problem import NOT_SERVED, RUNGS_A_LEVEL, PartKey, level_of
from generator.compute.spares.result import NextItem
from generator.model.shipped import NO_GO

# the shortest spare strip that is worth its place (the trade's kits)
SHORTEST = 3
# a longer one is a whole chain
MENDS = max(PITCHES_OUT.values())
# a part of the club, or a new strip of so many pitches made like the chain of that id
Piece = tuple[str, str, int]
Lifted = tuple[tuple[Asked, ...], tuple[Asked, ...]]


@dataclass(frozen=True)
class NextPiece:
    """Asks of one plan; `counts` are what is carried of each thing, wherever."""

    catalogue: Catalogue
    asked: Sequence[Asked]
    counts: Mapping[Carry, int]

    def found(self) -> tuple[NextItem, ...]:
        """Most weight newly mended first, then most weight mended better, then the lighter."""
        ranked = sorted(
            (*self._missing(), *self._one_more()),
            key=lambda each: (*(-weight for weight in _weights(each[1])), self._mass(*each[0]), each[0]),
        )
        return tuple(
            NextItem(kind, id_, self._mass(kind, id_, pitches), _named(mends), _named(betters), pitches)
            for (kind, id_, pitches), (mends, betters) in ranked
        )

    def _mass(self, kind: str, id_: str, pitches: int) -> int:
        return self.catalogue.usual_mass(kind, pitches) if pitches else self.catalogue.mass((kind, id_))

    def _missing(self) -> Iterator[tuple[Piece, Lifted]]:
        """What the first reason against each failure that has no way at all asks for."""
        hopeless = (each for each in self.asked if not each.demand.options)
        pieces = [(piece, each) for each in hopeless if (piece := self._piece(each.case)) is not None]
        for (kind, id_, _), found in grouped(pieces, lambda one: (*one[0][:2], one[0][2] > MENDS)).items():
            # of two loops the longer; what is too long is cut
            longest = max(pitches for (_, _, pitches), _ in found)
            yield (kind, id_, longest), (tuple(each for _, each in found), ())

    def _piece(self, case: Case) -> Piece | None:
        lack = next(iter(case.lacks), None)
        dataset = self.catalogue.dataset
        if lack is None:
            return None
        if lack.code == "S005":
            key = dataset.tools[lack.about].record.key
            return ("tool", key, 0) if key is not None and key in dataset.tools else None
        if lack.code == "S010":
            return lack.kind, lack.about, 0
        bike = dataset.bikes[case.bike].record
        if lack.code == "S006" and self._links(case.bike) >= 2:
            gap = PITCHES_OUT.get(dataset.shelf.mending.failures[case.failure].damage, SHORTEST)
            return "strip", bike.chain, max(SHORTEST, gap - 2)
        if lack.code == "S016" and self._links(case.bike) >= 1:
            return "strip", bike.chain, bike.pitches - 1
        return None

    def _links(self, bike: str) -> int:
        """How many links the club has that can be counted on in the bike's chain: a new strip of it asks for them."""
        bags = {
            fitted.bag
            for each in self.asked
            if each.case.bike == bike
            for method in each.case.methods
            if method.take
            for fitted in method.fitted
            if fitted.bag is not None and fitted.range.counts < NO_GO
        }
        return sum(made_up(self.catalogue.dataset, bag) for bag in bags)

    def _one_more(self) -> Iterator[tuple[Piece, Lifted]]:
        """Of parts of which no more are left: what one more in its bag would lift, the best bag of each."""
        amounts = [self.counts.get(thing, 0) for thing in self.catalogue.things]
        wanted: dict[int, list[tuple[Asked, int]]] = {}
        for each in self.asked:
            level = level_of(each.demand, amounts)
            for item in {i for o in each.demand.options for want in o.wants for i in want.items if level}:
                wanted.setdefault(item, []).append((each, level))
        best: dict[PartKey, Lifted] = {}
        left = self._left()
        for item, thing in enumerate(self.catalogue.things):
            short = [part for part, uses in self.catalogue.parts(thing) if left[part] < uses]
            if len(short) != 1:
                continue
            amounts[item] += 1
            lifted = _lifted(wanted.get(item, ()), amounts)
            amounts[item] -= 1
            if _weights(lifted) > _weights(best.get(short[0], ((), ()))):
                best[short[0]] = lifted
        yield from (((kind, id_, 0), lifted) for (kind, id_), lifted in best.items())

    def _left(self) -> dict[PartKey, int]:
        """How many of each part could still be packed."""
        left = {part: stock.count + stock.buyable for part, stock in self.catalogue.stock().items()}
        for thing, count in self.counts.items():
            for part, uses in self.catalogue.parts(thing):
                left[part] -= count * uses
        return left


def _lifted(wanted: Iterable[tuple[Asked, int]], amounts: Sequence[int]) -> Lifted:
    """Those that are mended then, and those that are mended at a better rung."""
    mends, betters = list[Asked](), list[Asked]()
    for each, level in wanted:
        if level_of(each.demand, amounts) // RUNGS_A_LEVEL < level // RUNGS_A_LEVEL:
            (mends if level == NOT_SERVED else betters).append(each)
    return tuple(mends), tuple(betters)


def _weights(lifted: Lifted) -> tuple[int, ...]:
    return tuple(sum(each.demand.weight for each in found) for found in lifted)


def _named(asked: Iterable[Asked]) -> tuple[tuple[str, str], ...]:
    return tuple((each.case.bike, each.case.failure) for each in asked)
