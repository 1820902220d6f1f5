"""The tables of a pair page: every check of the chosen way, and every way to join the pair.

Goes in: a book and a fit.  Comes out: tables, and sentences for the ways that are no-go.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.compute.fit.result import CheckFit, PairFit
from generator.compute.fit.ways import Way
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO, RUNGS
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import MEASURE_FIRST, ShownVerdict, shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.downloads import with_downloads
from generator.render.pages.fit_cells import clearance_cells
from generator.render.say.categories import Joint, category_sentence, joint_of
from generator.render.say.clearances import phrase_of
from generator.render.say.joint import clip_short, seals_short
from generator.render.say.limits import limits_of, numbers_of
from generator.render.say.names import listed, reading_name
from generator.render.say.said import Said, figures_for

CHECK_COLUMNS = (
    Column("Check", "head"),
    Column("Verdict", "verdict"),
    Column("Found", "number"),
    Column("at least", "number"),
    Column("at most", "number"),
    Column("Limits"),
    Column("Readings"),
    Column("Remark"),
)
WAY_COLUMNS = (
    Column("Clip", "head"),
    Column("Verdict", "verdict"),
    Column("Seals"),
    Column("Deciding check"),
)


@dataclass(frozen=True, slots=True)
class NoGoWays:
    """Ways that come to nothing for one reason."""

    reason: str
    ways: str


def range_verdict(best: int, worst: int) -> ShownVerdict:
    """The verdict on one check or one way."""
    return shown_verdict(RUNGS[best] if best == worst else MEASURE_FIRST, best, worst)


@dataclass(frozen=True, slots=True)
class PairRows:
    """The rows of one pair, for its page and for the files of its chain."""

    checks: tuple[Row, ...]
    ways: tuple[Row, ...]


AllRows = Mapping[tuple[str, str], PairRows]


def all_rows(book: Book) -> AllRows:
    """The rows of every pair, made once."""
    return {
        (fit.chain, fit.link): PairRows(check_rows(book.dataset, fit), way_rows(book, fit))
        for fit in book.fits
    }


def checks_table(fit: PairFit, rows: PairRows) -> Table | None:
    """Worst first; its rows stand in the file of all checks on this chain."""
    table = Table("checks", "Every check of the way above, worst first", CHECK_COLUMNS, rows.checks)
    under = checks_file_id(fit.chain)
    return with_downloads(table, under, "all checks on this chain") if rows.checks else None


def ways_table(fit: PairFit, rows: PairRows) -> Table | None:
    """Every way that is not no-go, best first; its rows stand in the file of all ways on this chain."""
    table = Table("ways", "Every way that is not no-go, best first", WAY_COLUMNS, rows.ways)
    return with_downloads(table, ways_file_id(fit.chain), "all ways on this chain") if rows.ways else None


def chain_files(book: Book, rows: AllRows, chain: str) -> tuple[Table, Table]:
    """Every check and every way of every link on one chain, as files only."""
    links = [fit.link for fit in book.of_chain[chain]]
    checks = [_led_by(link, row) for link in links for row in rows[chain, link].checks]
    ways = [_led_by(link, row) for link in links for row in rows[chain, link].ways]
    return (
        with_downloads(
            Table(
                checks_file_id(chain), f"Checks of all links on {chain}", _led(CHECK_COLUMNS), tuple(checks)
            )
        ),
        with_downloads(
            Table(ways_file_id(chain), f"Ways to join links to {chain}", _led(WAY_COLUMNS), tuple(ways))
        ),
    )


def checks_file_id(chain: str) -> str:
    return f"checks-{chain}"


def ways_file_id(chain: str) -> str:
    return f"ways-{chain}"


def _led(columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """The link in front, what was in front behind."""
    return (Column("Connecting link", "head"), *columns[1:], Column(columns[0].title))


def _led_by(link: str, row: Row) -> Row:
    return Row((Cell(link), *row.cells[1:], row.cells[0]))


def check_rows(dataset: Dataset, fit: PairFit) -> tuple[Row, ...]:
    if fit.option is None:
        return ()
    joint = joint_of(dataset, fit.chain, fit.link, fit.option)
    worst_first = sorted(fit.option.checks, key=lambda check: (-check.worst, -check.best))
    return tuple(_check_row(joint, check) for check in worst_first)


def _check_row(joint: Joint, check: CheckFit) -> Row:
    title = joint.dataset.shelf.joint_rules[check.rule_id].title
    note = "decides" if check.id == joint.option.deciding else ""
    readings = check.evidence.replace("-", " ") if check.category is None else ""
    cells = (
        Cell(title, note=note),
        Cell(verdict=range_verdict(check.best, check.worst)),
        *clearance_cells(check),
        Cell(said=check_limits(check, joint)),
        Cell(readings),
        Cell(check_remark(joint, check)),
    )
    return Row(cells)


def check_limits(check: CheckFit, joint: Joint) -> Said:
    if check.category is not None or check.unit != "mm":
        return ()
    phrase = phrase_of(check.id, joint.option.seals)
    return limits_of(check, phrase, range(min(check.worst, NO_GO - 1) + 1), figures_for(numbers_of(check)))


def check_remark(joint: Joint, check: CheckFit) -> str:
    if check.category is not None:
        return category_sentence(check, joint)
    if not check.missing:
        return ""
    names = listed([reading_name(joint.dataset, reading) for reading in check.missing])
    if check.settled_by_trial:
        return f"not known: {names}; settled by the dry fit"
    return f"not known: {names}" + ("" if check.best < check.worst else "; that changes nothing here")


def way_rows(book: Book, fit: PairFit) -> tuple[Row, ...]:
    own = book.dataset.links[fit.link].record.clip
    return tuple(_way_row(book.dataset, way, own) for way in book.ways_of(fit) if way.best < NO_GO)


def _way_row(dataset: Dataset, way: Way, own: str | None) -> Row:
    title = dataset.shelf.joint_rules[way.rule_id].title
    return Row(
        (
            Cell(clip_short(way), note="its own" if way.clip is not None and way.clip == own else ""),
            Cell(verdict=range_verdict(way.best, way.worst)),
            Cell(seals_short(way)),
            Cell(title, note="small faults add up" if way.adds_up else ""),
        )
    )


def no_go_ways(book: Book, fit: PairFit) -> tuple[NoGoWays, ...]:
    """In a line a reason, since a bag of clips gives dozens."""
    grouped: dict[tuple[str, str], list[str]] = {}
    rules = book.dataset.shelf.joint_rules
    for way in _no_go(book.ways_of(fit)):
        grouped.setdefault((rules[way.rule_id].title, seals_short(way)), []).append(clip_short(way))
    return tuple(
        NoGoWays(reason, f"{seals}: {', '.join(sorted(clips))}") for (reason, seals), clips in grouped.items()
    )


def _no_go(ways: Iterable[Way]) -> Iterable[Way]:
    return (way for way in ways if way.best == NO_GO)
