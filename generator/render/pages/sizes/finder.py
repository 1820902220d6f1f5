"""From the roller, the inner width and the pitch to the size code: a grid in measuring order."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.compute.grouped import grouped
from generator.model.dataset import SizeCodeEntry
from generator.render.base.lengths import ShownLength, shown_length
from generator.render.base.routes import part_route

SMALLEST_ROLLER = 7_000_000  # nm; below it are karts and cams, which no trail bike drives with
_WIDE = re.compile(r"(\d+/\d+) in wide")


@dataclass(frozen=True, slots=True)
class Found:
    """Size codes of one roller and width; the first stands for the others."""

    codes: tuple[str, ...]
    to: str


@dataclass(frozen=True, slots=True)
class RollerRow:
    """A roller with its pitch, and what there is of each width, none where there is nothing."""

    roller: str  # mm
    inch: str
    pitch: ShownLength
    cells: tuple[Found | None, ...]


@dataclass(frozen=True, slots=True)
class Width:
    """Inner widths that go by one fraction of an inch, less apart than a hand can tell: their middle, in mm."""

    mm: str
    called: str


@dataclass(frozen=True, slots=True)
class Finder:
    """Widths across, rollers down."""

    widths: tuple[Width, ...]
    rows: tuple[RollerRow, ...]


def finder_of(sizes: Iterable[SizeCodeEntry]) -> Finder:
    """Of motorcycle chain from trail size up, the smallest first."""
    known = [size for size in measured(sizes) if _roller(size) >= SMALLEST_ROLLER]
    by_width = grouped(sorted(known, key=_width), _called)
    by_roller = grouped(known, lambda size: (_roller(size), size.dims["pitch"].nominal))
    rows = tuple(
        RollerRow(
            shown_length(roller).mm.removesuffix(" mm"),
            shown_length(roller, 1).inch.removesuffix(" in"),
            shown_length(pitch),
            tuple(_found(group, called) for called in by_width),
        )
        for (roller, pitch), group in by_roller.items()
    )
    return Finder(tuple(_shown_width(called, group) for called, group in by_width.items()), rows)


def measured(sizes: Iterable[SizeCodeEntry]) -> tuple[SizeCodeEntry, ...]:
    """Motorcycle chain whose roller and width are known, in measuring order."""
    known = (
        size
        for size in sizes
        if size.record.family == "motorcycle" and {"roller_diameter", "inner_width"} <= size.dims.keys()
    )
    return tuple(sorted(known, key=lambda size: (_roller(size), _width(size), size.code)))


def _roller(size: SizeCodeEntry) -> int:
    return size.dims["roller_diameter"].nominal


def _width(size: SizeCodeEntry) -> int:
    return size.dims["inner_width"].nominal


def _called(size: SizeCodeEntry) -> str:
    """The fraction of an inch in its title, or the width itself."""
    found = _WIDE.search(size.record.title)
    return f"{found[1]} in" if found else shown_length(_width(size), 1).inch


def _found(sizes: Iterable[SizeCodeEntry], called: str) -> Found | None:
    codes = tuple(size.code for size in sizes if _called(size) == called)
    return Found(codes, part_route("size", codes[0])) if codes else None


def _shown_width(called: str, sizes: Sequence[SizeCodeEntry]) -> Width:
    widths = {_width(size) for size in sizes}
    middle = (min(widths) + max(widths)) // 2
    return Width(shown_length(middle, 2 if len(widths) == 1 else 1).mm.removesuffix(" mm"), called)
