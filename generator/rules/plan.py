"""The rule table made ready to evaluate: for one case of a joint, which rows of integers to compute.

Goes in: validated Rule records.  Comes out: a Plan of integer rows (scale x nm), each check with
its edges as clauses of rows: an edge holds where, in every clause, some row is >= 0.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from generator.model.shipped import RUNGS, Group, Rule
from generator.rules.forms import Vocabulary
from generator.rules.rows import CheckRows, Row, RowClauses, rows_of

Clauses = tuple[tuple[int, ...], ...]
Case = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Edge:
    """One limit of one rung; its slack is >= 0 where the limit is kept."""

    rung: int
    side: str
    clauses: Clauses


@dataclass(frozen=True, slots=True)
class CheckPlan:
    """One check in one case: its printed edges, and what each of the three rungs asks in all."""

    id: str
    rule_id: str
    order: int
    rule: Rule
    clearance: Clauses = ()
    edges: tuple[Edge, ...] = ()
    asked: tuple[Clauses, Clauses, Clauses] = ((), (), ())
    # the dimensions its clearance and edges rest on, in order of first use
    symbols: tuple[str, ...] = ()
    category: str | None = None
    rungs: tuple[tuple[str, tuple[int, int]], ...] = ()

    @property
    def group(self) -> Group:
        return self.rule.group


@dataclass(frozen=True, slots=True)
class Plan:
    """All checks of one case over a shared list of rows; `scale` turns nm into whole row units."""

    scale: int
    rows: tuple[Row, ...]
    checks: tuple[CheckPlan, ...]


def applies(rule: Rule, case: Mapping[str, str]) -> bool:
    return all(case.get(key) in values for key, values in rule.when.items())


def make_plan(
    rules: Mapping[str, Rule],
    case: Mapping[str, str],
    words: Callable[[Rule], Vocabulary],
    scale: int,
    only: Collection[str] | None = None,
) -> Plan:
    """The plan of one case, of all rules or only some; `words` says what the names of a rule stand for.  Raises RuleFault or FormFault where the table cannot be used."""
    rows = _Rows()
    checks = tuple(
        _check_plan(order, id_, rule, rows_of(id_, rule, words(rule), scale), rows)
        for order, (id_, rule) in enumerate(rules.items())
        if applies(rule, case) and (only is None or id_ in only)
    )
    return Plan(scale, tuple(rows.rows), checks)


class _Rows:
    """Rows in order of first use, each once."""

    def __init__(self) -> None:
        self.rows: list[Row] = []
        self._index: dict[Row, int] = {}

    def index(self, row: Row) -> int:
        if row not in self._index:
            self._index[row] = len(self.rows)
            self.rows.append(row)
        return self._index[row]

    def clauses(self, clauses: RowClauses) -> Clauses:
        return tuple(tuple(self.index(row) for row in clause) for clause in clauses)


def _check_plan(order: int, id_: str, rule: Rule, found: CheckRows | None, rows: _Rows) -> CheckPlan:
    check = rule.check or id_
    if found is None:
        rungs = tuple((value, _rung_range(words)) for value, words in rule.rungs.items())
        return CheckPlan(check, id_, order, rule, category=rule.category, rungs=rungs)
    edges = tuple(Edge(rung, side, rows.clauses(clauses)) for rung, side, clauses in found.edges)
    proper, get_home, last_resort = (rows.clauses(asked) for asked in found.asked)
    clearance = rows.clauses(found.clearance)
    return CheckPlan(
        check, id_, order, rule, clearance, edges, (proper, get_home, last_resort), found.symbols
    )


def _rung_range(words: tuple[str, ...]) -> tuple[int, int]:
    ranks = [RUNGS.index(word) for word in words]
    return min(ranks), max(ranks)
