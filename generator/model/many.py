"""When a club has so many pairs that each must be said in fewer bytes."""

from generator.model.dataset import Dataset

# more pairs than this are a file to download, not a page to read on a phone; and with a page each they must be short
MANY_PAIRS = 1500


def many_pairs(dataset: Dataset) -> bool:
    return len(dataset.chains) * len(dataset.links) > MANY_PAIRS
