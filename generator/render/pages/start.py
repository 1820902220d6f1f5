"""The first page: what is on the bike, what is in the bag, what the verdicts mean.

Goes in: a book and the parts that have pages.  Comes out: a page.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.model.dataset import Part
from generator.model.record import Record
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.pages.book import Book
from generator.render.pages.chains import kind_in_words
from generator.render.pages.makeshifts import PAGE as CLIP_LOST
from generator.render.pages.worth import PAGE as WORTH
from generator.render.say.names import parts_of
from generator.render.say.rungs import NO_SOURCE, verdict_key

# what comes out of a bag, in the order a rider looks for it
BAG_KINDS: Mapping[str, str] = {
    "link": "Connecting links",
    "clip": "Clips",
    "seal": "Seals and washers",
    "plate": "Side plates",
    "strip": "Spare strips",
    "tool": "Tools and keys",
}


@dataclass(frozen=True, slots=True)
class Label:
    """One label of the club's own, and what it is."""

    id: str
    to: str
    name: str
    detail: str


@dataclass(frozen=True, slots=True)
class LabelGroup:
    """Labels of one kind."""

    title: str
    labels: tuple[Label, ...]


def start_page(book: Book) -> Page:
    context = {
        "about": book.dataset.club.about or "",
        "bikes": tuple(bike_labels(book)),
        "spare_chains": tuple(chain_labels(book)),
        "bag": tuple(bag_groups(book)),
        "key": verdict_key(),
        "no_source": NO_SOURCE,
        "safety": "safety/",
        "worth": WORTH,
        "clip_lost": CLIP_LOST,
    }
    return Page(
        path="",
        title="Start",
        description="What is on the bike, what is in the bag: find both and see whether they go together.",
        template="handbook/start.html",
        context=context,
        search=("start", "what goes together"),
        kind="start",
    )


def bike_labels(book: Book) -> Iterator[Label]:
    """Bikes with the chain they run."""
    for id_, bike in book.dataset.bikes.items():
        chain = book.dataset.chains[bike.record.chain]
        detail = f"chain {chain.id}, {chain.record.size_code} {kind_in_words(chain.record)}"
        yield Label(id_, part_route("bike", id_), bike.record.name or "", detail)


def chain_labels(book: Book) -> Iterator[Label]:
    """Chains on no bike."""
    for id_, chain in book.dataset.chains.items():
        if not book.bikes_of[id_]:
            detail = f"{chain.record.size_code} {kind_in_words(chain.record)}"
            yield Label(id_, part_route("chain", id_), chain.record.name or "", detail)


def bag_groups(book: Book) -> Iterator[LabelGroup]:
    """Only what has a page to lead to."""
    for kind, title in BAG_KINDS.items():
        labels = tuple(
            _label(kind, part)
            for part in parts_of(book.dataset, kind).values()
            if _has_page(book, kind, part)
        )
        if labels:
            yield LabelGroup(title, labels)


def _has_page(book: Book, kind: str, part: Part[Record]) -> bool:
    return kind == "link" or part_route(kind, part.id) in book.elsewhere


def _label(kind: str, part: Part[Record]) -> Label:
    record = part.record
    facts = [getattr(record, "size_code", ""), getattr(record, "kept_in", None) or ""]
    if getattr(record, "count", 1) == 0:
        facts.append("none left")
    return Label(
        part.id, part_route(kind, part.id), record.name or "", ", ".join(text for text in facts if text)
    )
