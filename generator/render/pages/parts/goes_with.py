"""The table of what a part goes with: the verdict right after the first column, then why in a sentence.

Goes in: fits of one part.  Comes out: a Table, and what is ruled out at a glance.
"""

from collections.abc import Iterable, Sequence

from generator.compute.fit.result import CheckFit, MeasureNext, Word
from generator.compute.grouped import grouped
from generator.compute.others.result import PartFit
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import best_first, shown_verdict
from generator.render.many import many_pairs
from generator.render.pages.downloads import with_downloads
from generator.render.pages.facts import Fact, fact
from generator.render.pages.fit_cells import VERDICT, clearance_cells
from generator.render.say.checks import rule_of
from generator.render.say.names import parts_of
from generator.render.say.part_why import next_words, part_why

# where one of these rules a part out for sure, nothing else is worth a row
AT_A_GLANCE = frozenset(("clip-spacing", "pitch", "plate-size", "strip-size", "strip-pitch", "tool-size"))
# of one part of a kind in a row, and of many
TITLES = {
    "chain": (Column("Chain", "head"), Column("Chains", "long")),
    "link": (Column("Connecting link", "head"), Column("Connecting links", "long")),
}
BY_CHECK = Column("Deciding check", "head")
DECIDING_COLUMNS = (
    Column("Why", "long"),
    Column("Deciding check"),
    Column("Found", "number"),
    Column("at least", "number"),
    Column("at most", "number"),
    Column("Measure next"),
)


def goes_with(dataset: Dataset, id_: str, caption: str, kind: str, fits: Iterable[PartFit]) -> Table | None:
    """A row for each part of the kind it meets, best first; None where nothing is left to show."""
    listed, caption = worth_rows(dataset, fits, caption)
    shown = [fit for fit in parts_best_first(listed) if not at_a_glance(fit)]
    one, many = TITLES[kind]
    columns: tuple[Column, ...] = (one, VERDICT, *DECIDING_COLUMNS)
    if many_pairs(dataset):
        columns = (BY_CHECK, VERDICT, many)
        rows = _rows_by_check(dataset, kind, shown)
    else:
        rows = tuple(
            Row((part_cell(dataset, kind, fit.id_of(kind)), *fit_cells(dataset, fit))) for fit in shown
        )
    return (
        with_files(dataset, Table(id_, caption, columns, rows, as_list=many_pairs(dataset))) if rows else None
    )


def _rows_by_check(dataset: Dataset, kind: str, fits: Iterable[PartFit]) -> tuple[Row, ...]:
    """In a club with many pairs, what the same check brings to the same verdict shares a row."""
    groups = grouped(fits, lambda fit: (fit.best, fit.worst, reason_cell(dataset, fit)))
    return tuple(
        Row((title, verdict_cell(group[0].word, group[0].best, group[0].worst), led_to(kind, group)))
        for (*_, title), group in groups.items()
    )


def led_to(kind: str, fits: Iterable[PartFit]) -> Cell:
    """The parts of the kind that are met, each leading to its page."""
    ids = sorted(fit.id_of(kind) for fit in fits)
    return Cell(each=tuple((id_, part_route(kind, id_)) for id_ in ids))


def deciding_columns(dataset: Dataset) -> tuple[Column, ...]:
    """What stands behind the verdict; in a club with many pairs only the check that decides."""
    return DECIDING_COLUMNS[1:2] if many_pairs(dataset) else DECIDING_COLUMNS


def with_files(dataset: Dataset, table: Table) -> Table:
    """In a club with many pairs the file of the whole kind has the numbers of all of them."""
    return table if many_pairs(dataset) else with_downloads(table)


def worth_rows(dataset: Dataset, fits: Iterable[PartFit], caption: str) -> tuple[Iterable[PartFit], str]:
    """In a club with many pairs only what may go together has a row, and the caption says so; files have all."""
    if not many_pairs(dataset):
        return fits, caption
    return [fit for fit in fits if fit.best != NO_GO], f"{caption}; what is no-go is left out"


def ruled_out(kind: str, fits: Iterable[PartFit]) -> tuple[Fact, ...]:
    """What its size or pitch rules out, each leading to its page."""
    ids = [fit.id_of(kind) for fit in fits if at_a_glance(fit)]
    return tuple(fact(id_, id_, part_route(kind, id_)) for id_ in ids)


def at_a_glance(fit: PartFit) -> bool:
    return fit.best == NO_GO and fit.deciding in AT_A_GLANCE


def parts_best_first(fits: Iterable[PartFit]) -> Sequence[PartFit]:
    """Of equals, by the id of the other part."""
    return sorted(fits, key=lambda fit: (best_first(fit.best, fit.worst), fit.parts[1:] and fit.parts[1].id))


def part_cell(dataset: Dataset, kind: str, id_: str) -> Cell:
    name = parts_of(dataset, kind)[id_].record.name or ""
    return Cell(id_, to=part_route(kind, id_), note=name)


def verdict_cell(word: Word, best: int | None, worst: int | None) -> Cell:
    return Cell(verdict=shown_verdict(word, best, worst))


def fit_cells(dataset: Dataset, fit: PartFit) -> tuple[Cell, ...]:
    """Verdict, and the columns of DECIDING_COLUMNS."""
    verdict = verdict_cell(fit.word, fit.best, fit.worst)
    if many_pairs(dataset):
        return (verdict, title_cell(dataset, fit.deciding_check))
    why = Cell(said=part_why(dataset, fit))
    return (verdict, why, *deciding_cells(dataset, fit.deciding_check, fit.measure_next, fit.best, fit.worst))


def deciding_cells(
    dataset: Dataset,
    check: CheckFit | None,
    found: MeasureNext | None,
    best: int | None,
    worst: int | None,
) -> tuple[Cell, ...]:
    """Title, clearance with both ends, next reading."""
    next_cell = Cell(next_words(dataset, found, best, worst))
    numbers = clearance_cells(check) if check is not None else (Cell("none"),) * 3
    return (title_cell(dataset, check), *numbers, next_cell)


def reason_cell(dataset: Dataset, fit: PartFit) -> Cell:
    """The check that decides, or why there is no verdict."""
    return Cell(fit.refused) if fit.refused else title_cell(dataset, fit.deciding_check)


def title_cell(dataset: Dataset, check: CheckFit | None) -> Cell:
    return Cell(rule_of(dataset, check.rule_id).title if check is not None else "none")
