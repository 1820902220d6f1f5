"""Sources: what a value cites is in the registry, can be as good as it is said to be, and every source is used."""

import re
from collections.abc import Iterator, Mapping

from generator.model.dataset import Shelf
from generator.model.node import Block, Listing, LoadedFolder, Node, Scalar
from generator.model.quantity import EVIDENCE_ORDER
from generator.model.shipped import Source
from generator.problems import Problem
from generator.validate.wording import nearest

_CITES = re.compile(r"([a-z0-9][a-z0-9-]{0,39})\[[^\[\]]{1,80}\]")


def source_problems(club: LoadedFolder, shelf_files: LoadedFolder | None, shelf: Shelf) -> Iterator[Problem]:
    """Unknown and overrated sources everywhere, unused ones among the shipped if these are looked at."""
    cited: set[str] = set()
    for folder in (club, shelf_files):
        for name, file in folder.files.items() if folder is not None else ():
            if file.node is not None and name != Source.file:
                yield from _walk(file.node, (), shelf.sources, cited)
    if shelf_files is not None and not shelf_files.is_broken(Source.file):
        yield from _unused(shelf_files, cited)


def _walk(
    node: Node, path: tuple[str, ...], sources: Mapping[str, Source], cited: set[str]
) -> Iterator[Problem]:
    if isinstance(node, Listing):
        for index, item in enumerate(node.items):
            yield from _walk(item, (*path, str(index)), sources, cited)
    elif isinstance(node, Block):
        yield from _one_block(node, path, sources, cited)
        for key, entry in node.entries.items():
            yield from _walk(entry.value, (*path, key), sources, cited)


def _one_block(
    block: Block, path: tuple[str, ...], sources: Mapping[str, Source], cited: set[str]
) -> Iterator[Problem]:
    """The citation of one record or one odd value, and the evidence word beside it."""
    scalar = _text(block, "source")
    match = _CITES.fullmatch(scalar.text) if scalar is not None else None
    if scalar is None or match is None:
        return
    identity = match[1]
    cited.add(identity)
    steps = (*path, "source")
    if identity not in sources:
        near = nearest(identity, sorted(sources))
        fix = (
            f"write {near}[...]"
            if near
            else "cite a source of the sources page, such as common-practice[...]"
        )
        yield Problem("S701", f"there is no source '{identity}'", scalar.place, steps, fix, near)
        return
    word = _text(block, "from") or _text(block, "evidence")
    best = sources[identity].evidence
    if (
        word is not None
        and word.text in EVIDENCE_ORDER
        and EVIDENCE_ORDER.index(word.text) < EVIDENCE_ORDER.index(best)
    ):
        fix = f"write {best}, or cite a better source"
        message = f"'{identity}' can be {best} at best, not {word.text}"
        key = "from" if "from" in block.entries else "evidence"
        yield Problem("S703", message, word.place, (*path, key), fix, related=(scalar.place,))


def _text(block: Block, key: str) -> Scalar | None:
    entry = block.entries.get(key)
    return entry.value if entry is not None and isinstance(entry.value, Scalar) else None


def _unused(shelf_files: LoadedFolder, cited: set[str]) -> Iterator[Problem]:
    for identity, entry in shelf_files.node(Source.file).entries.items():
        if identity not in cited:
            message = f"nothing cites the source '{identity}'"
            yield Problem("S702", message, entry.key.place, (identity,), level="warning")
