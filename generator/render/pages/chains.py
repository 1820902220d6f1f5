"""The list of chains, and a page a chain: what it is, who runs it, which links of the club go on it.

Goes in: a book.  Comes out: pages.
"""

from collections.abc import Iterator

from generator.model.chain_parts import Chain
from generator.model.dataset import Part
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.downloads import with_downloads
from generator.render.pages.facts import Fact, fact, instrument_names, measured_facts, present, sentence
from generator.render.pages.fit_sections import fit_sections
from generator.render.pages.fits_tables import in_count, links_on_chain
from generator.render.pages.makeshifts import PAGE as CLIP_LOST
from generator.render.pages.makeshifts import lost_clip
from generator.render.pages.readings_table import not_measured, readings_table
from generator.render.pages.search_terms import part_terms
from generator.render.pages.worth import worth_of_part
from generator.render.say.rungs import NO_SOURCE

CHAINS = "chains/"


def chain_pages(book: Book) -> Iterator[Page]:
    yield chains_index(book)
    for id_ in book.dataset.chains:
        yield chain_page(book, id_)


def chains_index(book: Book) -> Page:
    columns = (
        Column("Chain", "head"),
        Column("Size code"),
        Column("Kind"),
        Column("Bikes that run it"),
        Column("Links of the club"),
    )
    rows = tuple(_index_row(book, part) for part in book.dataset.chains.values())
    table = with_downloads(Table("chains", "Chains of the club", columns, rows))
    return Page(
        path=CHAINS,
        title="Chains",
        description="Every chain of the club, the bikes that run it and how many links go on it.",
        template="handbook/chains.html",
        context={"table": table},
        search=("chains", "chain list"),
        kind="chains",
        in_nav=True,
        tables=(table,),
    )


def _index_row(book: Book, part: Part[Chain]) -> Row:
    bikes = book.bikes_of[part.id]
    return Row(
        (
            Cell(part.id, to=part_route("chain", part.id), note=part.record.name or ""),
            Cell(part.record.size_code),
            Cell(kind_in_words(part.record)),
            Cell(", ".join(bikes) if bikes else "none"),
            Cell(in_count(book.of_chain[part.id])),
        ),
        id=part.id,
    )


def kind_in_words(chain: Chain) -> str:
    if chain.kind != "sealed":
        return "kind not known" if chain.kind == "unknown" else "plain"
    return {"O": "sealed, O-seals", "X": "sealed, X-seals"}.get(chain.seal, f"sealed, seals {chain.seal}")


def chain_page(book: Book, id_: str) -> Page:
    part = book.dataset.chains[id_]
    fits = book.of_chain[id_]
    context = {
        "lead": sentence(part.record.name, part.record.size_code, kind_in_words(part.record)),
        "facts": chain_facts(book, part),
        "bikes": tuple(_bike_fact(book, bike) for bike in book.bikes_of[id_]),
        "sections": fit_sections(
            book,
            fits,
            f"links-on-{id_}",
            id_,
            lambda name, caption, some: links_on_chain(book, name, caption, some),
        ),
        "stopped": sum(not fit.own_page for fit in fits),
        "all_pairs": f"pairs/{id_}/",
        "lost": lost_clip(book, id_),
        "no_source": NO_SOURCE,
        "clip_lost": CLIP_LOST,
        "worth": worth_of_part(book, id_, fits),
        "readings": readings_table(book.dataset, part),
        "not_measured": not_measured(book.dataset, part),
    }
    return Page(
        path=part_route("chain", id_),
        title=id_,
        description=f"Chain {id_}, {part.record.size_code}, {kind_in_words(part.record)}: which links go on it.",
        template="handbook/chain.html",
        context=context,
        search=part_terms(part, "chain"),
        kind="chain",
    )


def chain_facts(book: Book, part: Part[Chain]) -> tuple[Fact, ...]:
    record, dataset = part.record, book.dataset
    own = record.own_link
    to = part_route("link", own) if own and own in dataset.links else ""
    worn = None if record.elongation is None else fact("Longer than new", _percent(record.elongation))
    size = f"sizes/{record.size_code.lower()}/"
    return present(
        (
            fact("Size code", record.size_code, size if size in book.elsewhere else ""),
            fact("Kind", kind_in_words(record)),
            fact("Its own joint", record.own_joint),
            fact("Runs with link", own, to) if own else None,
            worn,
            fact("State", "modified: no verdict is given") if record.state == "modified" else None,
            *measured_facts(record, instrument_names(dataset.club.instruments)),
        )
    )


def _percent(elongation: str) -> str:
    return "not known" if elongation == "unknown" else f"{elongation} %"


def _bike_fact(book: Book, bike: str) -> Fact:
    return fact(bike, book.dataset.bikes[bike].record.name or bike, part_route("bike", bike))
