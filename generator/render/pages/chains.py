"""The list of chains, and a page a chain: what it runs with, every link by its verdict, what it is."""

from collections.abc import Iterator

from generator.model.chain_parts import Chain
from generator.model.dataset import Part
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.pages.book import Book
from generator.render.pages.clip_trail import own_fit
from generator.render.pages.facts import Fact, fact, instrument_names, measured_facts, present
from generator.render.pages.fit_rows import link_row
from generator.render.pages.fit_sections import chips_from, link_entries, sections_from
from generator.render.pages.index_tables import chains_table
from generator.render.pages.needs import breaker_for, tools_of
from generator.render.pages.readings_table import not_measured, readings_table
from generator.render.pages.search_terms import part_terms
from generator.render.pages.worth import worth_of_part
from generator.render.say.bike import IT_RUNS_WITH, LINK_NOT_WRITTEN
from generator.render.say.names import named
from generator.render.say.wear import shown_wear

CHAINS = "chains/"


def chain_pages(book: Book) -> Iterator[Page]:
    yield chains_index(book)
    for id_ in book.dataset.chains:
        yield chain_page(book, id_)


def chains_index(book: Book) -> Page:
    return Page(
        path=CHAINS,
        title="Chains",
        description="Every chain of the club, the bikes that run it and how many links go on it.",
        template="handbook/chains.html",
        context={"rows": tuple(_go_row(book, part) for part in book.dataset.chains.values())},
        search=("chains", "chain list"),
        kind="chains",
        in_nav=True,
        tables=(chains_table(book),),
    )


def _go_row(book: Book, part: Part[Chain]) -> GoRow:
    chips = chips_from(book.of_chain[part.id])
    on = ", ".join(book.bikes_of[part.id]) or "no bike"
    return GoRow(
        part_route("chain", part.id),
        named(part),
        tag=part.id,
        detail="; ".join(
            (f"{part.record.size_code} on {on}", ", ".join(f"{c.count} {c.label}" for c in chips))
        ),
        counts=tuple((chip.word, chip.count) for chip in chips),
    )


def kind_in_words(chain: Chain) -> str:
    if chain.kind != "sealed":
        return "kind not known" if chain.kind == "unknown" else "plain"
    return {"O": "sealed, O-rings", "X": "sealed, X-rings"}.get(chain.seal, f"sealed, seals {chain.seal}")


def chain_page(book: Book, id_: str) -> Page:
    part, fits, own = book.dataset.chains[id_], book.of_chain[id_], own_fit(book, id_)
    entries = link_entries(book, fits, own=own)
    context = {
        "chain": id_,
        "name": named(part),
        "runs_on": "runs on" if book.bikes_of[id_] else "runs on no bike",
        "bikes": tuple(fact(bike, bike, part_route("bike", bike)) for bike in book.bikes_of[id_]),
        "sub": f"{part.record.size_code}, {kind_in_words(part.record)}.",
        "wear": shown_wear(book.dataset, book.wear.chains[id_]),
        "runs_title": IT_RUNS_WITH,
        "own": link_row(book, own, numbers=True) if own else None,
        "own_unknown": LINK_NOT_WRITTEN,
        "chips": chips_from(entries),
        "sections": sections_from(entries),
        "needs": (*(tools_of(book, own) if own else ()), breaker_for(book, id_)),
        "worth": worth_of_part(book, fits),
        "facts": chain_facts(book, part),
        "readings": readings_table(book.dataset, part),
        "not_measured": not_measured(book.dataset, part),
    }
    return Page(
        path=part_route("chain", id_),
        title=named(part),
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
    size = f"sizes/{record.size_code.lower()}/"
    return present(
        (
            fact("Size code", record.size_code, size if size in book.elsewhere else ""),
            fact("Kind", kind_in_words(record)),
            fact("Letters stamped on it", record.letters) if record.letters else None,
            fact("Its own joint", record.own_joint),
            fact("Runs with link", own, to) if own else None,
            fact("State", "modified: no verdict is given") if record.state == "modified" else None,
            *measured_facts(record, instrument_names(dataset.club.instruments)),
        )
    )
