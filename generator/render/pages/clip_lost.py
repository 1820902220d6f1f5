"""Clip lost: what to put on, in the order to try it; then each bike with its clip and its place; then wiring."""

from collections.abc import Iterator

from generator.compute.fit.clip_lost import TABLE
from generator.model.shipped import GET_HOME, NO_GO, RUNGS
from generator.render.base.components import FitRow
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.verdicts import range_verdict, shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.clip_trail import in_short, own_fit
from generator.render.say.cautions import shown_caution
from generator.render.say.clip_lost import (
    CLIP_IS,
    CLIP_NONE,
    DANGER,
    ELSE_IS,
    ELSE_NOTHING,
    LADDER_NEW,
    LADDER_OFF,
    LEAD,
    NO_CLIP,
    NOT_WRITTEN,
    PLATE_IS,
    TO_MAKE,
    WIRE_STEPS,
)
from generator.render.say.names import named
from generator.render.say.rungs import NO_SOURCE
from generator.render.say.said import small

PAGE = "clip-lost/"
CAUTIONS = ("guard-the-guide", "new-clip", "wire-is-not-a-clip", "get-home-riding", "manual-first")


def clip_lost_page(book: Book) -> Page:
    known = book.dataset.shelf.cautions
    context = {
        "lead": LEAD,
        "danger": shown_caution(DANGER, known[DANGER]),
        "ladder": (*_clips(), *_makeshifts(book)),
        "plate_is": PLATE_IS,
        "bikes": tuple(_bike_rows(book)),
        "without": tuple(_without(book)),
        "steps": WIRE_STEPS,
        "cautions": tuple(shown_caution(id_, known[id_]) for id_ in CAUTIONS if id_ in known),
        "no_source": NO_SOURCE,
    }
    return Page(
        path=PAGE,
        title="Clip lost",
        description="The clip of the connecting link is gone: what to put on, in the order to try it.",
        template="handbook/clip_lost.html",
        context=context,
        search=(
            "clip lost",
            "lost clip",
            "clip gone",
            "clip came off",
            "no clip",
            "wire instead of a clip",
            "clip missing",
        ),
        kind="clip-lost",
        in_nav=True,
    )


def _clips() -> Iterator[FitRow]:
    """What fits comes before what makes do."""
    for rung, (name, where, why) in ((0, LADDER_NEW), (GET_HOME, LADDER_OFF)):
        yield FitRow(range_verdict(rung, rung), name, goes_in=where, why=(why,))


def _makeshifts(book: Book) -> Iterator[FitRow]:
    """The best each can be, the best first."""
    found = []
    for id_, rule in book.dataset.shelf.other_rules.get(TABLE, {}).items():
        if "clip" not in rule.when.get("closure", ()):
            continue
        rungs = [RUNGS.index(word) for words in rule.rungs.values() for word in words]
        best = min(rungs or rule.bands)
        found.append(
            (
                best,
                FitRow(
                    range_verdict(best, best),
                    rule.title,
                    goes_in=TO_MAKE.get(rule.check or id_, ""),
                    why=(rule.says,),
                ),
            )
        )
    yield from (row for _, row in sorted(found, key=lambda pair: pair[0]))


def _bike_rows(book: Book) -> Iterator[FitRow]:
    """The clip and its place; the plate is what a makeshift is worth if there is no clip."""
    for id_, bike in book.dataset.bikes.items():
        fit = own_fit(book, bike.record.chain)
        if fit is None or book.dataset.links[fit.link].record.closure != "clip":
            continue
        clip, other = in_short(book, fit)
        yield FitRow(
            verdict=other.verdict if other else shown_verdict(RUNGS[NO_GO], NO_GO, NO_GO),
            name=named(bike),
            tags=(id_,),
            goes_in=CLIP_IS.format(name=clip.name, tag=clip.tags[0], place=clip.goes_in)
            if clip
            else CLIP_NONE,
            why=(ELSE_IS.format(name=small(other.name)),) if other else (ELSE_NOTHING,),
            to=f"{part_route('bike', id_)}#clip-lost",
        )


def _without(book: Book) -> Iterator[tuple[str, tuple[tuple[str, str], ...]]]:
    """Bikes that have no clip to lose, and those of which nobody wrote it down."""
    riveted, unknown = [], []
    for id_, bike in book.dataset.bikes.items():
        fit = own_fit(book, bike.record.chain)
        if fit is None:
            unknown.append((id_, part_route("bike", id_)))
        elif book.dataset.links[fit.link].record.closure != "clip":
            riveted.append((id_, part_route("bike", id_)))
    yield from ((words, tuple(some)) for words, some in ((NO_CLIP, riveted), (NOT_WRITTEN, unknown)) if some)
