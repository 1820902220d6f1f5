"""The list of spring clips, and a page a clip: what is left of it, which links it goes on.

Goes in: a dataset and the fits of its clips.  Comes out: pages.
"""

from collections.abc import Iterator, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import PartFit
from generator.model.chain_parts import Clip
from generator.model.dataset import Dataset, Part
from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row
from generator.render.pages.facts import Fact, fact
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    links_of,
    list_head,
    list_page,
    part_page,
    stock_cells,
    stock_facts,
)
from generator.render.pages.parts.goes_with import goes_with, ruled_out

HISTORY = {
    "new": "new",
    "never-off": "never been off its link",
    "off-once": "off once: get-home at best",
    "bent": "bent: no-go",
    "unknown": "not known",
}
CAUTIONS = ("flying-parts", "clip-direction", "new-clip", "wire-is-not-a-clip")


def clip_pages(dataset: Dataset, fits: Sequence[PartFit]) -> Iterator[Page]:
    of_clip = grouped(fits, lambda fit: fit.id_of("clip"))
    yield _list(dataset)
    for clip in dataset.clips.values():
        yield _page(dataset, clip, of_clip.get(clip.id, []))


def _list(dataset: Dataset) -> Page:
    columns = (Column("Clip", "head"), Column("History"), Column("Thickness", "number"), *STOCK_COLUMNS)
    description = "Every spring clip of the club: its history, what is left of it, where it is kept."
    return list_page(dataset, "clip", description, columns, (_row(clip) for clip in dataset.clips.values()))


def _row(clip: Part[Clip]) -> Row:
    thickness = clip.dims.get("thickness")
    length = Cell(length=shown_length(thickness.nominal)) if thickness else Cell("not known")
    return Row((list_head(clip), Cell(HISTORY[clip.record.history]), length, *stock_cells(clip)), id=clip.id)


def _page(dataset: Dataset, clip: Part[Clip], fits: Sequence[PartFit]) -> Page:
    caption = f"Links of the club with {clip.id}, best first"
    return part_page(
        dataset,
        clip,
        f"Spring clip {clip.id}: which connecting links it goes on, and why.",
        _facts(dataset, clip),
        CAUTIONS,
        {
            "links": goes_with(dataset, f"clip-{clip.id}-links", caption, "link", fits),
            "ruled_out": ruled_out("link", fits),
            "belongs_to": links_of(dataset, "clip", clip.id),
        },
    )


def _facts(dataset: Dataset, clip: Part[Clip]) -> Iterator[Fact | None]:
    yield from stock_facts(dataset, clip)
    yield fact("History", HISTORY[clip.record.history])
    yield _left(clip)


def _left(clip: Part[Clip]) -> Fact | None:
    """In whole per cent of its new thickness, as read."""
    now, new = clip.dims.get("thickness"), clip.dims.get("thickness_new")
    if now is None or new is None or not new.nominal:
        return None
    return fact("Left of its new thickness", f"{round(100 * now.nominal / new.nominal)} %")
