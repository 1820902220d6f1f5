"""If the clip is lost: what each bike is left with, and what each makeshift is worth at most.

Goes in: a book.  Comes out: a page.
"""

from collections.abc import Iterator, Mapping, Sequence

from generator.compute.fit.clip_lost import TABLE
from generator.model.shipped import NO_GO, RUNGS
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.downloads import with_downloads
from generator.render.pages.facts import Fact, fact
from generator.render.pages.makeshifts import ANCHOR, PAGE, LostClip, lost_clip
from generator.render.say.cautions import short_caution, shown_caution
from generator.render.say.rungs import NO_SOURCE

# before a makeshift is made, and before it is ridden on
CAUTIONS = (
    "engine-off",
    "guard-the-guide",
    "new-clip",
    "wire-is-not-a-clip",
    "get-home-riding",
    "manual-first",
)
CLOSURES = {"clip": "spring clip", "rivet": "rivet", "screw": "screw"}
PLATES = {"slip": "slides on", "press": "pressed on", "press-to-shoulder": "pressed to a shoulder"}


def clip_lost_page(book: Book) -> Page:
    known = book.dataset.shelf.cautions
    bikes = tuple(_bike_rows(book))
    return Page(
        path=PAGE,
        title="If the clip is lost",
        description="The clip of the connecting link is gone on the way: what each bike is left with to get home.",
        template="handbook/clip_lost.html",
        context={
            "bikes": with_downloads(
                Table("clip-lost-by-bike", "What each bike is left with", _BIKE_COLUMNS, bikes)
            )
            if bikes
            else None,
            "every": with_downloads(
                Table("makeshifts", "Every makeshift, at its best", _RULE_COLUMNS, tuple(_rule_rows(book)))
            ),
            "riveted": tuple(_riveted(book)),
            "first": short_caution(known),
            "cautions": tuple(shown_caution(id_, known[id_]) for id_ in CAUTIONS if id_ in known),
            "no_source": NO_SOURCE,
        },
        search=(
            "clip lost",
            "lost clip",
            "clip gone",
            "clip came off",
            "no clip",
            "repair",
            "trailside repair",
            "wire instead of a clip",
            "clip missing",
        ),
        kind="clip-lost",
        in_nav=True,
    )


_BIKE_COLUMNS = (
    Column("Bike", "head"),
    Column("Verdict", "verdict"),
    Column("What is left", "long"),
    Column("Chain"),
    Column("Link it runs with"),
)
_RULE_COLUMNS = (
    Column("Makeshift", "head"),
    Column("Verdict", "verdict"),
    Column("Joint"),
    Column("What it asks", "long"),
)


def _bike_rows(book: Book) -> Iterator[Row]:
    for id_, bike in book.dataset.bikes.items():
        chain = bike.record.chain
        lost = lost_clip(book, chain)
        if lost.closure != "clip":
            continue
        link = Cell(lost.link.text, to=lost.link.to) if lost.link else Cell("not written down")
        yield Row(
            (
                Cell(id_, to=f"{part_route('bike', id_)}#{ANCHOR}", note=bike.record.name or ""),
                *_left(lost),
                Cell(chain, to=part_route("chain", chain)),
                link,
            ),
            id=id_,
        )


def _riveted(book: Book) -> Iterator[Fact]:
    """Bikes whose own joint has no clip to lose."""
    for id_, bike in book.dataset.bikes.items():
        if lost_clip(book, bike.record.chain).closure != "clip":
            yield fact(id_, id_, part_route("bike", id_))


def _left(lost: LostClip) -> tuple[Cell, Cell]:
    """The best of what is left."""
    if not lost.lines:
        verdict = (
            shown_verdict("cannot-judge", None, None)
            if lost.link is None
            else shown_verdict(RUNGS[NO_GO], NO_GO, NO_GO)
        )
        return Cell(verdict=verdict), Cell(lost.says)
    best = lost.lines[0]
    return Cell(verdict=best.verdict, to=lost.pair), Cell(best.title)


def _rule_rows(book: Book) -> Iterator[Row]:
    for id_, rule in book.dataset.shelf.other_rules.get(TABLE, {}).items():
        rungs = [RUNGS.index(word) for words in rule.rungs.values() for word in words]
        best = min(rungs or rule.bands)
        yield Row(
            (
                Cell(rule.title),
                Cell(verdict=shown_verdict(RUNGS[best], best, best)),
                Cell(_joint(rule.when)),
                Cell(rule.says),
            ),
            id=id_,
        )


def _joint(when: Mapping[str, Sequence[str]]) -> str:
    """`spring clip, plate pressed on or pressed to a shoulder`."""
    closure = " or ".join(CLOSURES[word] for word in when.get("closure", ()))
    plates = " or ".join(PLATES[word] for word in when.get("plate_fit", ()))
    return f"{closure}, plate {plates}" if plates else closure
