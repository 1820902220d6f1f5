"""Every name of the rules as a column over the options: worked out once for each combination of the parts it rests on."""

from collections.abc import Callable, Mapping

import numpy as np

from generator.compute.fit.columns import Coded, Ints, Spread, coded, column
from generator.compute.fit.options import NOTHING, Bench, Options, joined
from generator.model.dataset import Dataset
from generator.rules.joined import Joined, Parts
from generator.rules.symbols import SYMBOLS


def joint_columns(dataset: Dataset, on: Bench, options: Options) -> Mapping[str, Spread]:
    """By name of the symbol."""
    together: dict[Parts, tuple[Ints, Ints]] = {}
    columns = {}
    for name, symbol in SYMBOLS.items():
        if symbol.parts not in together:
            together[symbol.parts] = combinations(options, symbol.parts)
        first, place = together[symbol.parts]
        values = (symbol.value(joined(dataset, on, options, number)) for number in first.tolist())
        columns[name] = Spread(column(values), place)
    return columns


def by_parts(
    dataset: Dataset, on: Bench, options: Options, parts: Parts, word: Callable[[Joined], str]
) -> Coded:
    """A word of each option, asked once for each combination of the parts it rests on."""
    first, place = combinations(options, parts)
    return coded([word(joined(dataset, on, options, number)) for number in first.tolist()], place)


def combinations(options: Options, parts: Parts) -> tuple[Ints, Ints]:
    """The first option of each combination of these parts, and by option which combination it has."""
    key = np.zeros(len(options), dtype=np.int64)
    for part in parts:
        places: Ints = getattr(options, part)
        # a part that is not there has a place of its own
        key = key * (int(places.max(initial=0)) + 1 - NOTHING) + places - NOTHING
    _, first, place = np.unique(key, return_index=True, return_inverse=True)
    return first, place.reshape(-1)
