"""Where everything comes from: the sources, the share of each grade, and every value and rule with its own."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from generator.compute.citations import GROUPS, Citation, Group, citations, club_evidence, shares
from generator.model.dataset import Dataset, Shelf
from generator.model.quantity import Evidence
from generator.model.shipped import Source
from generator.render.base.page import Download, Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.reference.cells import EVIDENCE_WORDS, evidence_cell, field_title, source_cell

TITLES: dict[Group, str] = {
    "size": "Values of the size codes",
    "other-size": "Values that contradict them",
    "rule": "Rules and their limits",
    "recipe": "Ways of measuring",
    "instrument": "Kinds of instrument",
    "wear-limit": "Wear limits",
    "allowance": "What counts where nobody looked closer",
    "dry-fit": "What a dry fit proves",
    "figure": "Figures that the guide prints",
    "finding": "What findings mean",
    "task": "The plan of care",
    "caution": "Cautions",
    "word": "Words with a source",
}
KINDS = {
    "standard": "standard",
    "handbook": "handbook",
    "textbook": "textbook",
    "trade": "trade page or table",
    "maker": "maker's page, name withheld",
    "practice": "practice",
    "memory": "memory",
}


def sources_page(book: Book) -> Page:
    dataset = book.dataset
    every = citations(dataset.shelf)
    tables = (_shares(dataset, every), _sources(dataset.shelf, every))
    cited = tuple(_cited(dataset.shelf, every))
    return Page(
        path="sources/",
        title="Sources",
        description="Where every value and rule comes from, how well each is known, and the share of each grade.",
        template="handbook/sources.html",
        context={
            "shares": tables[0],
            "sources": tables[1],
            "cited": cited,
        },
        search=(
            "where the values come from",
            "evidence",
            "references",
            "standards",
            "grades",
            "literature",
            "ISO 10190",
            "JIS",
        ),
        kind="sources",
        in_nav=True,
        tables=(*tables, *cited),
        files=(Download("JSON", "data/v1/sources.json"),),
    )


def _shares(dataset: Dataset, every: Sequence[Citation]) -> Table:
    """What ships group by group and in all, and the club's own readings."""
    columns = (
        Column("What", "head"),
        Column("Grade"),
        Column("How many", "number"),
        Column("Share", "number"),
    )
    rows = tuple(row for what, grades in _graded(dataset, every) for row in _share_rows(what, grades))
    return Table("shares", "How many values have which grade", columns, rows)


def _graded(dataset: Dataset, every: Sequence[Citation]) -> Iterator[tuple[str, list[Evidence]]]:
    yield "All that ships", [each.evidence for each in every]
    for group in GROUPS:
        yield TITLES[group], [each.evidence for each in every if each.group == group]
    yield "The club's own readings", list(club_evidence(dataset))


def _share_rows(what: str, grades: Iterable[Evidence]) -> Iterator[Row]:
    for word, count, thousandths in shares(grades):
        yield Row((Cell(what), evidence_cell(word), Cell(str(count)), Cell(_percent(thousandths))))


def _percent(thousandths: int) -> str:
    return f"{thousandths // 10}.{thousandths % 10} %"


def _sources(shelf: Shelf, every: Iterable[Citation]) -> Table:
    counted = Counter(each.source for each in every)
    columns = (
        Column("Source", "head"),
        Column("Kind"),
        Column("Best grade of a value from it"),
        Column("How it was seen"),
        Column("Cited", "number"),
        Column("Remarks", "long"),
    )
    rows = tuple(_source_row(id_, source, counted[id_]) for id_, source in shelf.sources.items())
    return Table("sources", "Every source", columns, rows)


def _source_row(id_: str, source: Source, times: int) -> Row:
    year = f", {source.year}" if source.year else ""
    cells = (
        Cell(f"{source.title}{year}", note=id_),
        Cell(KINDS[source.kind]),
        Cell(EVIDENCE_WORDS[source.evidence]),
        Cell(source.seen or "not said"),
        Cell(str(times)),
        Cell(source.note or ""),
    )
    return Row(cells, id=id_)


def _cited(shelf: Shelf, every: Iterable[Citation]) -> Iterator[Table]:
    columns = (Column("What", "head"), Column("Value"), Column("Grade"), Column("Source", "long"))
    for group in GROUPS:
        rows = tuple(
            Row((_what(each), Cell(each.value), evidence_cell(each.evidence), _source(shelf, each)))
            for each in every
            if each.group == group
        )
        if rows:
            yield Table(f"cited-{group}", TITLES[group], columns, rows)


def _source(shelf: Shelf, citation: Citation) -> Cell:
    return source_cell(shelf, f"{citation.source}[{citation.place}]" if citation.place else citation.source)


def _what(citation: Citation) -> Cell:
    """What is cited, leading to where it is shown."""
    if citation.group in ("size", "other-size"):
        to = part_route("size", citation.subject)
        return Cell(f"{citation.subject} {field_title(citation.field).lower()}", to=to)
    routes: dict[str, str] = {
        "rule": f"limits/#{citation.subject}",
        "allowance": f"limits/#{citation.subject}",
        "dry-fit": f"limits/#felt-{citation.subject}",
        "recipe": f"measuring/{citation.subject}/",
        "caution": f"safety/#{citation.subject}",
        "word": f"glossary/#{citation.subject}",
    }
    return Cell(citation.subject, to=routes.get(citation.group, ""))
