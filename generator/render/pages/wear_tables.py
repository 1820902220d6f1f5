"""Limits of elongation from all sources side by side, and how long so many pitches are at each."""

from collections.abc import Iterator
from fractions import Fraction

from generator.compute.grouped import grouped
from generator.compute.wear.limits import club_rule, percent_of
from generator.model.dataset import Dataset
from generator.model.shipped import WearLimit
from generator.render.base.lengths import shown_length
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.reference.cells import source_cell
from generator.render.say.wear import per_cent

# pitches over which manuals print a limit, and the even count that is kindest to the reading
COUNTS = (15, 16, 17, 20)


def limits_table(dataset: Dataset, chosen: str) -> Table:
    """Lowest first; the club's own is named in its row."""
    limits = sorted(dataset.shelf.wear_limits.items(), key=lambda pair: (Fraction(pair[1].sealed), pair[0]))
    columns = (
        Column("Who says so", "head"),
        Column("Plain", "number"),
        Column("Sealed", "number"),
        Column("Printed there as", "long"),
        Column("Source"),
    )
    rows = tuple(_limit_row(dataset, id_, limit, id_ == chosen) for id_, limit in limits)
    return Table("wear-limits", "Limits of elongation, the lowest first", columns, rows)


def _limit_row(dataset: Dataset, id_: str, limit: WearLimit, chosen: bool) -> Row:
    head = Cell(limit.title, note="the club's choice" if chosen else "")
    values = (Cell(per_cent(Fraction(value))) for value in (limit.plain, limit.sealed))
    return Row((head, *values, _printed(limit), source_cell(dataset.shelf, limit.source)), id=id_)


def _printed(limit: WearLimit) -> Cell:
    if limit.printed is None:
        return Cell(limit.note or "a share of the length")
    length = shown_length(int(limit.printed.length.readings[0]), 1)
    return Cell(said=(length, f" over {limit.printed.pitches} pitches"), note=limit.note or "")


def length_tables(dataset: Dataset) -> Iterator[Table]:
    """One a pitch: how long so many pitches are when new and at each limit that somebody names."""
    by_pitch = grouped(
        (size for size in dataset.shelf.sizes.values() if size.record.family == "motorcycle"),
        lambda size: size.dims["pitch"].nominal,
    )
    percents = sorted(
        {Fraction(v) for rule in dataset.shelf.wear_limits.values() for v in (rule.plain, rule.sealed)}
    )
    for pitch in sorted(by_pitch):
        codes = ", ".join(size.code for size in by_pitch[pitch])
        yield _lengths(dataset, pitch, codes, percents)


def _lengths(dataset: Dataset, pitch: int, codes: str, percents: list[Fraction]) -> Table:
    columns = (
        Column("Pitches", "head"),
        Column("Rollers to count", "number"),
        Column("New", "number"),
        *(Column(f"{per_cent(percent)}{_of_club(dataset, percent)}", "number") for percent in percents),
    )
    rows = tuple(_length_row(pitch, count, percents) for count in COUNTS)
    caption = f"Length when new and at each limit: {codes}"
    return Table(f"wear-lengths-{pitch // 1000}", caption, columns, rows)


def _length_row(pitch: int, count: int, percents: list[Fraction]) -> Row:
    """At a limit never shown longer than it is; its anchor differs from those of other pitches."""
    new = count * pitch
    limits = (Cell(length=shown_length(int(new * (100 + p) / 100), 2, "down")) for p in percents)
    head = Cell(str(count), note="odd: a little less sure" if count % 2 else "")
    cells = (head, Cell(str(count + 1)), Cell(length=shown_length(new)), *limits)
    return Row(cells, id=f"pitches-{count}-of-{pitch // 1000}")


def _of_club(dataset: Dataset, percent: Fraction) -> str:
    rule = club_rule(dataset)[1]
    own = [kind for kind in ("plain", "sealed") if percent_of(rule, kind) == percent]
    return f", the club's limit, {' and '.join(own)}" if own else ""
