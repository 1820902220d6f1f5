"""Checks that come out alike, looked at once: a club's thousands of joints differ from one another in few of theirs."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from generator.compute.fit.result import CheckFit
from generator.model.dataset import Dataset
from generator.rules.joined import PARTS, Joined
from generator.rules.rooms import bikes_with
from generator.rules.symbols import SYMBOLS, parts_behind

Key = tuple[object, ...]


class Alike:
    """The checks looked at so far by what they depend on, for all judges of the same records."""

    def __init__(self) -> None:
        self.found: dict[Key, CheckFit] = {}
        # while an object is kept no other one takes its identity
        self._kept: dict[int, tuple[int, object]] = {}
        # by bikes and chain
        self._rooms: dict[tuple[int, str], Key] = {}

    def same(self, parts: Joined) -> "Same":
        of_parts = (getattr(parts, part) for part in PARTS)
        return Same(
            self,
            tuple(each if isinstance(each, str) else self.number(each) for each in of_parts),
            self._rooms_of(parts),
        )

    def _rooms_of(self, parts: Joined) -> Key:
        key = (self.number(parts.dataset.bikes), parts.chain.id)
        if key not in self._rooms:
            self._rooms[key] = tuple(map(self.number, bikes_with(parts.dataset, parts.chain.id)))
        return self._rooms[key]

    def number(self, each: object) -> int:
        """The same for the same object."""
        return self._kept.setdefault(id(each), (len(self._kept), each))[0]


@dataclass(frozen=True, slots=True)
class Same:
    """What tells one joint from others: its parts in the order of PARTS, and the bikes whose room counts."""

    alike: Alike
    parts: Key
    rooms: Key

    def of(self, symbols: tuple[str, ...]) -> Key:
        """The same for joints in which these symbols have the same values and the same readings behind them."""
        places, rooms = _behind(symbols)
        return (*(self.parts[at] for at in places), *(self.rooms if rooms else ()))


@cache
def _behind(symbols: tuple[str, ...]) -> tuple[tuple[int, ...], bool]:
    """The places in PARTS of what these rest on, and whether that includes the rooms beside the chain."""
    parts = {part for name in symbols for part in parts_behind(name)}
    rooms = any("bike" in SYMBOLS[name].through for name in symbols)
    return tuple(at for at, part in enumerate(PARTS) if part in parts), rooms


class AlikeOf:
    """One store for datasets whose records are the same, but for their bikes."""

    def __init__(self) -> None:
        self._stores: dict[tuple[int, ...], tuple[Alike, tuple[Mapping[str, object], ...]]] = {}

    def __call__(self, dataset: Dataset) -> Alike:
        tables = (dataset.links, dataset.clips, dataset.seals, dataset.trials)
        key = tuple(map(id, tables))
        if key not in self._stores:
            self._stores[key] = Alike(), tables
        return self._stores[key][0]
