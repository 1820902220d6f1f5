"""What the pages of all these parts share: what they go with, facts, readings, cautions, search words, the list."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.model.dataset import Dataset, Part
from generator.model.kinds import KINDS
from generator.model.record import Measured
from generator.render.base.components import Chip, GoRow
from generator.render.base.page import Page
from generator.render.base.routes import FOLDERS, part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import ShownVerdict
from generator.render.pages.facts import (
    Fact,
    fact,
    fact_of,
    instrument_names,
    mass_fact,
    measured_facts,
    present,
)
from generator.render.pages.fit_sections import Entry, FitSection, chips_from, sections_from
from generator.render.pages.readings_table import not_measured, readings_table
from generator.render.pages.search_terms import part_terms
from generator.render.say.cautions import ShownCaution, shown_caution
from generator.render.say.names import named, parts_of
from generator.render.say.parts import in_short
from generator.render.say.said import plain

OVER_ALL = "manual-first"


@dataclass(frozen=True, slots=True)
class Meets:
    """What a part goes with, by verdict; `empty` is said where there is nothing."""

    title: str
    says: str
    chips: tuple[Chip, ...]
    sections: tuple[FitSection, ...]
    empty: str


def meets(title: str, says: str, entries: Sequence[Entry], empty: str, stem: str = "") -> Meets:
    return Meets(title, says, chips_from(entries, stem), sections_from(entries, stem), empty)


def list_page(
    dataset: Dataset, kind: str, description: str, columns: Sequence[Column], rows: Iterable[Row]
) -> Page:
    """The list of a kind; says so where the club has none.  The same as a table goes into a file."""
    word, plural = KINDS[kind].model.kind_word, KINDS[kind].plural
    table = Table(f"{FOLDERS[kind]}-list", f"{plural} of the club", tuple(columns), tuple(rows))
    return Page(
        path=f"{FOLDERS[kind]}/",
        title=plural,
        description=description,
        template="handbook/part_list.html",
        context={
            "title": plural,
            "rows": tuple(_go_row(dataset, kind, table.columns, row) for row in table.rows),
        },
        search=(plural.lower(), f"{word}s", *synonyms(dataset, kind)),
        kind=FOLDERS[kind],
        in_nav=True,
        tables=(table,) if table.rows else (),
    )


def _go_row(dataset: Dataset, kind: str, columns: Sequence[Column], row: Row) -> GoRow:
    """Its cells but the first in one line, the verdict of one of them left to its page."""
    part = parts_of(dataset, kind)[row.id]
    told = (_in_a_line(column, cell) for column, cell in zip(columns[1:], row.cells[1:], strict=True))
    return GoRow(
        part_route(kind, row.id), named(part), tag=row.id, detail=" · ".join(text for text in told if text)
    )


def _in_a_line(column: Column, cell: Cell) -> str:
    """With what it is of; nothing where nothing is to be told."""
    text = plain(cell.said) if cell.said else cell.length.mm if cell.length else cell.text
    if not text or text in SAYS_NOTHING:
        return ""
    return f"{column.title.lower()} {NOT_KNOWN}" if text == NOT_KNOWN else column.line.format(text)


def part_page(
    dataset: Dataset,
    part: Part[Measured],
    description: str,
    facts: Iterable[Fact | None],
    cautions: Iterable[str],
    groups: Callable[[], Sequence[Meets]],
    answer: tuple[ShownVerdict, str] | None = None,
    own: tuple[str, tuple[Fact, ...]] = ("", ()),
) -> Page:
    """What it goes with first, facts, readings, cautions.  `groups` are made when the page is printed, `answer` stands
    above, `own` names the links it came with."""
    kind = part.kind
    known = present((*facts, *measured_facts(part.record, instrument_names(dataset.club.instruments))))
    return Page(
        path=part_route(kind, part.id),
        title=named(part),
        description=description,
        template="handbook/part.html",
        context={
            "id": part.id,
            "name": named(part),
            "kept": getattr(part.record, "kept_in", None) or "",
            "sub": in_short({fact.name: plain(fact.said) for fact in known}),
            "answer": answer,
            "own": own,
            "facts": known,
            "readings": readings_table(dataset, part),
            "not_measured": not_measured(dataset, part),
            "cautions": tuple(_cautions(dataset, (*cautions, OVER_ALL))),
        },
        search=(*part_terms(part, KINDS[kind].model.kind_word), *synonyms(dataset, kind)),
        kind=kind,
        later=lambda: {"groups": tuple(groups())},
    )


def words_of(page: Page, dataset: Dataset, terms: Iterable[str]) -> Page:
    """The page, to be found by further words of the glossary as well."""
    return replace(page, search=tuple(dict.fromkeys((*page.search, *glossary_words(dataset, terms)))))


def stock_facts(dataset: Dataset, part: Part[Measured], how_many: str = "How many") -> Iterator[Fact | None]:
    """How many, where, how heavy, how dear."""
    count = getattr(part.record, "count", 1)
    yield fact(how_many, count if count else "none left")
    yield fact_of(part.record, "Kept in", "kept_in")
    yield mass_fact(part)
    cost = getattr(part.record, "cost", None)
    if cost and cost != "unknown":
        yield fact("Cost of one", f"{cost} {dataset.club.currency or ''}".strip())


def links_of(dataset: Dataset, field: str, id_: str) -> tuple[Fact, ...]:
    """The links that name the part as their own."""
    owners = (link for link in dataset.links.values() if getattr(link.record, field) == id_)
    return tuple(fact(link.id, link.id, part_route("link", link.id)) for link in owners)


def size_fact(part: Part[Measured]) -> Fact:
    code = getattr(part.record, "size_code", "unknown")
    return fact("Size code", code)


def list_head(part: Part[Measured]) -> Cell:
    return Cell(part.id, to=part_route(part.kind, part.id), note=part.record.name or "")


def stock_cells(part: Part[Measured]) -> tuple[Cell, Cell]:
    """How many and where, for a row of a list."""
    kept = getattr(part.record, "kept_in", None)
    return Cell(str(getattr(part.record, "count", 1))), Cell(kept or "not written down")


NOT_KNOWN = "not known"
SAYS_NOTHING = ("any", "needs none", "none written down", "not written down")
STOCK_COLUMNS = (Column("How many", "number", "{} kept"), Column("Kept in"))


def synonyms(dataset: Dataset, kind: str) -> tuple[str, ...]:
    """What the trade also calls it."""
    return glossary_words(dataset, KINDS[kind].words)


def glossary_words(dataset: Dataset, terms: Iterable[str]) -> tuple[str, ...]:
    known = [dataset.shelf.glossary[id_] for id_ in terms if id_ in dataset.shelf.glossary]
    words = (word for term in known for word in (term.title, *term.us, *term.uk, *term.also))
    return tuple(dict.fromkeys(words))


def _cautions(dataset: Dataset, ids: Iterable[str]) -> Iterator[ShownCaution]:
    known = dataset.shelf.cautions
    yield from (shown_caution(id_, known[id_]) for id_ in dict.fromkeys(ids) if id_ in known)
