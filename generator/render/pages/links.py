"""The list of connecting links, and a page a link: what it is, where it is kept, which chains it goes on.

Goes in: a book.  Comes out: pages.
"""

from collections.abc import Iterator

from generator.model.chain_parts import Link
from generator.model.dataset import Part
from generator.render.base.page import Page
from generator.render.base.routes import pair_route, part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book, sorted_out
from generator.render.pages.downloads import with_downloads
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
from generator.render.pages.fit_sections import fit_sections
from generator.render.pages.fits_tables import chains_for_link, in_count
from generator.render.pages.readings_table import not_measured, readings_table
from generator.render.pages.search_terms import part_terms
from generator.render.pages.worth import worth_of_part

LINKS = "links/"
KIND = "connecting link"


def link_pages(book: Book) -> Iterator[Page]:
    yield links_index(book)
    for id_ in book.dataset.links:
        yield link_page(book, id_)


def links_index(book: Book) -> Page:
    columns = (
        Column("Connecting link", "head"),
        Column("Size code"),
        Column("Kind"),
        Column("How many", "number"),
        Column("Kept in"),
        Column("Chains of the club"),
    )
    rows = tuple(_index_row(book, part) for part in book.dataset.links.values())
    table = with_downloads(Table("links", "Connecting links of the club", columns, rows))
    return Page(
        path=LINKS,
        title="Connecting links",
        description="Every connecting link of the club, where it is kept and how many chains it goes on.",
        template="handbook/links.html",
        context={"table": table},
        search=("connecting links", "master links", "split links"),
        kind="links",
        in_nav=True,
        tables=(table,),
    )


def _index_row(book: Book, part: Part[Link]) -> Row:
    record = part.record
    return Row(
        (
            Cell(part.id, to=part_route("link", part.id), note=record.name or ""),
            Cell(record.size_code),
            Cell(kind_in_words(record)),
            Cell(str(record.count)),
            Cell(record.kept_in or "not written down"),
            Cell(in_count(book.of_link[part.id])),
        ),
        id=part.id,
    )


def kind_in_words(link: Link) -> str:
    fit = {
        "slip": "plate slides on",
        "press": "plate pressed on",
        "press-to-shoulder": "plate pressed on to a shoulder",
    }
    made = "for unknown chain" if link.made_for == "unknown" else f"for {link.made_for} chain"
    return f"{link.closure}, {fit.get(link.plate_fit, 'plate fit not known')}, {made}"


def link_page(book: Book, id_: str) -> Page:
    part = book.dataset.links[id_]
    fits = book.of_link[id_]
    context = {
        "lead": sentence(
            part.record.name, part.record.size_code, kind_in_words(part.record), part.record.kept_in
        ),
        "facts": link_facts(book, part),
        "sections": fit_sections(
            book,
            fits,
            f"chains-for-{id_}",
            id_,
            lambda name, caption, some: chains_for_link(book, name, caption, some),
        ),
        "no_go": tuple(
            fact(fit.chain, fit.chain, pair_route(fit))
            for fit in (sorted_out(fits).no_go if book.brief else ())
        ),
        "stopped": tuple(
            fact(fit.chain, fit.chain, f"pairs/{fit.chain}/#{id_}") for fit in fits if not fit.own_page
        ),
        "worth": worth_of_part(book, id_, fits),
        "readings": readings_table(book.dataset, part),
        "not_measured": not_measured(book.dataset, part),
    }
    return Page(
        path=part_route("link", id_),
        title=id_,
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
