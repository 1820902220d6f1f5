"""The list of connecting links, and a page a link: every chain by its verdict, with the bikes that run it."""

from collections.abc import Iterator

from generator.model.chain_parts import Link
from generator.model.dataset import Part
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.pages.book import Book
from generator.render.pages.facts import (
    Fact,
    fact,
    fact_of,
    instrument_names,
    mass_fact,
    measured_facts,
    present,
    sentence,
)
from generator.render.pages.fit_sections import chain_entries, chips_from, sections_from
from generator.render.pages.index_tables import links_table
from generator.render.pages.readings_table import not_measured, readings_table
from generator.render.pages.search_terms import part_terms
from generator.render.pages.worth import worth_of_part
from generator.render.say.joint import link_kept
from generator.render.say.names import named

LINKS = "links/"
KIND = "connecting link"


def link_pages(book: Book) -> Iterator[Page]:
    yield links_index(book)
    for id_ in book.dataset.links:
        yield link_page(book, id_)


def links_index(book: Book) -> Page:
    return Page(
        path=LINKS,
        title="Connecting links",
        description="Every connecting link of the club, where it is kept and how many chains it goes on.",
        template="handbook/links.html",
        context={"rows": tuple(_go_row(book, part) for part in book.dataset.links.values())},
        search=("connecting links", "master links", "split links"),
        kind="links",
        in_nav=True,
        tables=(links_table(book),),
    )


def _go_row(book: Book, part: Part[Link]) -> GoRow:
    chips = chips_from(book.of_link[part.id])
    found = (
        f"{part.record.size_code}, {link_kept(book.dataset, part.id)}",
        ", ".join(f"{c.count} {c.label}" for c in chips),
    )
    return GoRow(
        part_route("link", part.id),
        named(part),
        tag=part.id,
        detail="; ".join(text for text in found if text),
        counts=tuple((chip.word, chip.count) for chip in chips),
    )


def kind_in_words(link: Link) -> str:
    fit = {
        "slip": "slide-on plate",
        "press": "pressed plate",
        "press-to-shoulder": "plate pressed to a shoulder",
    }
    made = "for unknown chain" if link.made_for == "unknown" else f"for {link.made_for} chain"
    return f"{link.closure}, {fit.get(link.plate_fit, 'plate fit not known')}, {made}"


def link_page(book: Book, id_: str) -> Page:
    part, fits = book.dataset.links[id_], book.of_link[id_]
    entries = chain_entries(book, fits)
    context = {
        "link": id_,
        "name": named(part),
        "kept": link_kept(book.dataset, id_),
        "sub": sentence(part.record.size_code, kind_in_words(part.record)),
        "chips": chips_from(entries),
        "sections": sections_from(entries),
        "facts": link_facts(book, part),
        "worth": worth_of_part(book, fits),
        "readings": readings_table(book.dataset, part),
        "not_measured": not_measured(book.dataset, part),
    }
    return Page(
        path=part_route("link", id_),
        title=named(part),
        description=f"Connecting link {id_}, {part.record.size_code}: which chains it goes on.",
        template="handbook/link.html",
        context=context,
        search=part_terms(part, KIND),
        kind="link",
    )


def link_facts(book: Book, part: Part[Link]) -> tuple[Fact, ...]:
    record = part.record
    size = f"sizes/{record.size_code.lower()}/"
    return present(
        (
            fact("How many", record.count),
            fact_of(record, "Kept in", "kept_in"),
            fact("Size code", record.size_code, size if size in book.elsewhere else ""),
            fact("Letters on it", record.letters) if record.letters else None,
            fact("Made for", f"{record.made_for} chain" if record.made_for != "unknown" else "not known"),
            fact("Closed by", record.closure),
            fact("Side plate", record.plate_fit),
            fact("Pins", record.pin_kind) if record.closure == "rivet" else None,
            _led_to(book, "Its own clip", "clip", record.clip),
            _led_to(book, "Its own seals", "seal", record.seals),
            fact("Condition", record.condition.replace("-", " ")),
            fact("Half link", "yes: no-go on any chain") if record.half_link else None,
            mass_fact(part),
            fact("Cost of one", f"{record.cost} {book.dataset.club.currency or ''}".strip())
            if record.cost
            else None,
            *measured_facts(record, instrument_names(book.dataset.club.instruments)),
        )
    )


def _led_to(book: Book, name: str, kind: str, id_: str | None) -> Fact | None:
    if id_ is None:
        return None
    to = part_route(kind, id_)
    return fact(name, id_, to if to in book.elsewhere else "")
