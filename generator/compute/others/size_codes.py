"""What a size code says where nothing was measured: its pitch, its pin, how two codes stand to each other."""

from generator.compute.fit.sizes import SizeRelation, size_relation
from generator.compute.others.meeting import Value, of_quantity
from generator.model.dataset import Dataset


def pitch_of(dataset: Dataset, code: str) -> Value:
    return published(dataset, code, "pitch")


def published(dataset: Dataset, code: str, field: str) -> Value:
    """A dimension that goes with a size code; nothing where the code is not known or says nothing."""
    size = dataset.shelf.sizes.get(code)
    return of_quantity("size", code, field, size.dims.get(field) if size else None)


def relation_of(dataset: Dataset, part: str, of: str) -> SizeRelation:
    """How a part of one size code stands to one of another; both codes must be known."""
    sizes = dataset.shelf.sizes
    return size_relation(sizes[part], sizes[of])
