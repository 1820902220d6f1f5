"""What a small move of each limit does to the trade facts: by limit, fact by fact, and where the two never agreed."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.model.how_sure import Disagreement, Flip, HowSure
from generator.model.shipped import Rule
from generator.render.base.table import Cell, Column, Row, Table

_LIMIT_COLUMNS = (
    Column("Limit moved", "head"),
    Column("by"),
    Column("Cases that flip", "number"),
    Column("Facts", "number"),
    Column("Verdicts before and after", "long"),
)
_FLIP_COLUMNS = (
    Column("Trade fact", "head"),
    Column("As shipped"),
    Column("Limit moved"),
    Column("Case"),
    Column("Which limit, and where to", "long"),
    Column("by"),
)
_DISAGREE_COLUMNS = (
    Column("Trade fact", "head"),
    Column("The trade says"),
    Column("Comes out"),
    Column("Case"),
    Column("Why the limits were not bent", "long"),
)


@dataclass(frozen=True, slots=True)
class Tried:
    """What was moved, in numbers, the facts that flipped and those that never agreed."""

    share_percent: int
    limits: int
    facts: int
    flips: int
    moved: int
    by_limit: Table | None
    table: Table | None
    disagree: Table | None


def tried(found: HowSure, rules: Mapping[str, Rule]) -> Tried:
    groups = _by_limit(found)
    return Tried(
        share_percent=found.share_percent,
        limits=found.limits,
        facts=found.facts,
        flips=len(found.flips),
        moved=len(groups),
        by_limit=_table(
            "moved-limits", "Limits that matter most", _LIMIT_COLUMNS, _limit_rows(groups, rules)
        ),
        table=_table(
            "flip-list",
            "Facts that flip when one limit is moved",
            _FLIP_COLUMNS,
            tuple(_flip_row(flip, rules) for flip in found.flips),
        ),
        disagree=_table(
            "disagree-list",
            "Trade facts that come out otherwise than the trade says",
            _DISAGREE_COLUMNS,
            tuple(_disagree_row(each) for each in found.disagree),
        ),
    )


def _table(id_: str, caption: str, columns: tuple[Column, ...], rows: tuple[Row, ...]) -> Table | None:
    return Table(id_, caption, columns, rows) if rows else None


def _by_limit(found: HowSure) -> tuple[tuple[Flip, ...], ...]:
    """The flips of each limit and direction, most first."""
    groups: dict[tuple[str, str, str, str], list[Flip]] = {}
    for flip in found.flips:
        groups.setdefault((flip.rule, flip.rung, flip.side, flip.moved), []).append(flip)
    return tuple(sorted((tuple(group) for group in groups.values()), key=lambda group: -len(group)))


def _limit_rows(groups: tuple[tuple[Flip, ...], ...], rules: Mapping[str, Rule]) -> tuple[Row, ...]:
    return tuple(_limit_row(group, rules) for group in groups)


def _limit_row(group: tuple[Flip, ...], rules: Mapping[str, Rule]) -> Row:
    first = group[0]
    changes = dict.fromkeys(f"{flip.before} becomes {flip.after}" for flip in group)
    head = Cell(_title(first, rules), to=f"limits/#{first.rule}", note=_which(first))
    facts = len({flip.fact for flip in group})
    return Row((head, Cell(first.by), Cell(str(len(group))), Cell(str(facts)), Cell(", ".join(changes))))


def _flip_row(flip: Flip, rules: Mapping[str, Rule]) -> Row:
    limit = Cell(f"{_title(flip, rules)}: {_which(flip)}", to=f"limits/#{flip.rule}")
    return Row((_fact(flip.fact), Cell(flip.before), Cell(flip.after), Cell(flip.case), limit, Cell(flip.by)))


def _disagree_row(each: Disagreement) -> Row:
    cells = (_fact(each.fact), Cell(each.trade), Cell(each.computed), Cell(each.case), Cell(each.because))
    return Row(cells)


def _fact(id_: str) -> Cell:
    return Cell(id_.replace("-", " "))


def _title(flip: Flip, rules: Mapping[str, Rule]) -> str:
    return rules[flip.rule].title if flip.rule in rules else flip.rule


def _which(flip: Flip) -> str:
    side = "least" if flip.side == "low" else "greatest"
    return f"{side} value for {flip.rung}, moved {flip.moved}"
