"""The size codes in the order of their pitch."""

from generator.model.dataset import Dataset, SizeCodeEntry


def by_pitch(dataset: Dataset) -> tuple[SizeCodeEntry, ...]:
    sizes = dataset.shelf.sizes.values()
    return tuple(sorted(sizes, key=lambda size: (size.dims["pitch"].nominal, size.code)))
