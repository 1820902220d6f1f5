"""What cannot be true of the data that ship.

Goes in: the shelf and its files.  Comes out: problems.
"""

from collections.abc import Iterator

from generator.model.dataset import Shelf
from generator.model.node import Block, LoadedFolder, key_span
from generator.model.written import Written
from generator.problems import Problem


def shelf_problems(shelf: Shelf, files: LoadedFolder) -> Iterator[Problem]:
    """Every value of a size code says how it is known and cites where it was seen."""
    for name in sorted(files.files):
        root = files.node(name)
        if name.startswith("sizes/"):
            yield from _ungraded(shelf, root)


def _ungraded(shelf: Shelf, root: Block) -> Iterator[Problem]:
    for code in root.entries:
        entry = shelf.sizes.get(code)
        for field in type(entry.record).model_fields if entry is not None else ():
            value = getattr(entry.record, field) if entry is not None else None
            if isinstance(value, Written) and (value.evidence is None or value.source is None):
                place = key_span(root, (code, field))
                yield Problem("S704", f"{field} has no grade or no source", place, (code, field))
