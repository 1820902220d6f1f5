"""The list of spring clips, and a page a clip: what is left of it, which links it goes on."""

from collections.abc import Iterator, Mapping, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import PartFit
from generator.model.chain_parts import Clip
from generator.model.dataset import Dataset, Part
from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row
from generator.render.pages.book import Book
from generator.render.pages.facts import Fact, fact
from generator.render.pages.fit_sections import Entry
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    links_of,
    list_head,
    list_page,
    meets,
    part_page,
    stock_cells,
    stock_facts,
)
from generator.render.pages.parts.met import ANY, NO_JOINT, Range, best_joint, entry_of
from generator.render.say.parts import CLIP_SAYS, NO_LINK_FOR_CLIP, ON_LINKS, OWN_CLIP_OF

HISTORY = {
    "new": "new",
    "never-off": "never been off its link",
    "off-once": "off once: get-home at best",
    "bent": "bent: no-go",
    "unknown": "not known",
}
CAUTIONS = ("flying-parts", "clip-direction", "new-clip", "wire-is-not-a-clip")


def clip_pages(book: Book) -> Iterator[Page]:
    of_clip = grouped(book.others.clip_links, lambda fit: fit.id_of("clip"))
    joints = best_joints(book)
    yield _list(book.dataset)
    for clip in book.dataset.clips.values():
        yield _page(book, clip, of_clip.get(clip.id, []), joints)


def best_joints(book: Book) -> Mapping[tuple[str, str], Range]:
    """By clip and link, the best joint of any chain of the club."""
    found: dict[tuple[str, str], Range] = {}
    for (_, link), ways in book.ways.items():
        for way in ways:
            if way.clip is not None:
                here = (way.best, way.worst)
                # one after the other: a large club has millions of ways
                found[way.clip, link] = best_joint((found.get((way.clip, link), here), here))
    return found


def _list(dataset: Dataset) -> Page:
    columns = (
        Column("Clip", "head"),
        Column("History"),
        Column("Thickness", "number", "{} thick"),
        *STOCK_COLUMNS,
    )
    description = "Every spring clip of the club: its history, what is left of it, where it is kept."
    return list_page(dataset, "clip", description, columns, (_row(clip) for clip in dataset.clips.values()))


def _row(clip: Part[Clip]) -> Row:
    thickness = clip.dims.get("thickness")
    length = Cell(length=shown_length(thickness.nominal)) if thickness else Cell("not known")
    return Row((list_head(clip), Cell(HISTORY[clip.record.history]), length, *stock_cells(clip)), id=clip.id)


def _page(
    book: Book, clip: Part[Clip], fits: Sequence[PartFit], joints: Mapping[tuple[str, str], Range]
) -> Page:
    dataset = book.dataset

    def entry(fit: PartFit) -> Entry:
        none = NO_JOINT if dataset.chains else ANY
        return entry_of(book, fit, "link", joints.get((clip.id, fit.id_of("link")), none))

    return part_page(
        dataset,
        clip,
        f"Spring clip {clip.id}: which connecting links it goes on, and why.",
        _facts(dataset, clip),
        CAUTIONS,
        lambda: [meets(ON_LINKS, CLIP_SAYS, [entry(fit) for fit in fits], NO_LINK_FOR_CLIP)],
        own=(OWN_CLIP_OF, links_of(dataset, "clip", clip.id)),
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
