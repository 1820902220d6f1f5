"""Every name of the rules as a column over the options: worked out once for each combination of the parts it rests on."""

from collections.abc import Callable, Mapping, Sequence

import numpy as np

from generator.compute.fit.columns import Coded, Ints, Spread, coded, column
from generator.compute.fit.options import NOTHING, Bench, Options, joined
from generator.model.dataset import Dataset
from generator.rules.joined import Joined, Parts
from generator.rules.symbols import SYMBOLS

# each combination of some parts, and by option which of them it has
Combinations = tuple[Sequence[Joined], Ints]


class Combined:
    """The options of a bench by the parts that they share, each combination put together once."""

    def __init__(self, dataset: Dataset, on: Bench, options: Options) -> None:
        self.dataset, self.on, self.options = dataset, on, options
        self._of: dict[Parts, Combinations] = {}

    def of(self, parts: Parts) -> Combinations:
        if parts not in self._of:
            first, place = _combinations(self.options, parts)
            together = [joined(self.dataset, self.on, self.options, number) for number in first.tolist()]
            self._of[parts] = together, place
        return self._of[parts]

    def words(self, parts: Parts, word: Callable[[Joined], str]) -> Coded:
        """A word of each option, asked once for each combination of the parts it rests on."""
        together, place = self.of(parts)
        return coded([word(each) for each in together], place)


def joint_columns(combined: Combined) -> Mapping[str, Spread]:
    """By name of the symbol."""
    columns = {}
    for name, symbol in SYMBOLS.items():
        together, place = combined.of(symbol.parts)
        columns[name] = Spread(column(map(symbol.value, together)), place)
    return columns


def _combinations(options: Options, parts: Parts) -> tuple[Ints, Ints]:
    """The first option of each combination of these parts, and by option which combination it has."""
    key = np.zeros(len(options), dtype=np.int64)
    for part in parts:
        places: Ints = getattr(options, part)
        # a part that is not there has a place of its own
        key = key * (int(places.max(initial=0)) + 1 - NOTHING) + places - NOTHING
    _, first, place = np.unique(key, return_index=True, return_inverse=True)
    return first, place.reshape(-1)
