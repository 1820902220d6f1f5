"""The rule table made ready to evaluate: for one case of a joint, which rows of integers to compute."""

from collections.abc import Callable, Collection, Iterator, Mapping
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

    @property
    def deciding_rows(self) -> list[int]:
        """Those of what the rungs ask, each once."""
        return list(dict.fromkeys(row for asked in self.asked for clause in asked for row in clause))

    @property
    def rows(self) -> Iterator[int]:
        """All of them, edges first."""
        edges = (edge.clauses for edge in self.edges)
        return (
            row for clauses in (*edges, *self.asked, self.clearance) for clause in clauses for row in clause
        )


@dataclass(frozen=True, slots=True)
class Plan:
    """All checks of one case over shared rows, by number; `scale` turns nm into whole row units."""

    scale: int
    rows: Mapping[int, Row]
    checks: tuple[CheckPlan, ...]


def applies(rule: Rule, case: Mapping[str, str]) -> bool:
    return all(case.get(key) in values for key, values in rule.when.items())


class PlanMaker:
    """Plans of one rule table, for any number of cases; what cases have in common is worked out once.  `scale` turns
    every coefficient of the table whole."""

    def __init__(self, rules: Mapping[str, Rule], scale: int) -> None:
        self.rules, self.scale = rules, scale
        # rows are numbered in order of first use, the same row has the same number in every plan
        self._numbers: dict[Row, int] = {}
        self._rows: list[Row] = []
        self._checks: dict[tuple[str, Vocabulary], CheckPlan] = {}

    def plan(
        self,
        case: Mapping[str, str],
        words: Callable[[str], Vocabulary],
        only: Collection[str] | None = None,
    ) -> Plan:
        """The plan of one case, of all rules or only some; `words` says what the names of a rule stand for.  Raises
        RuleFault or FormFault where the table cannot be used."""
        checks = tuple(
            self._check(order, id_, words(id_))
            for order, (id_, rule) in enumerate(self.rules.items())
            if applies(rule, case) and (only is None or id_ in only)
        )
        used = dict.fromkeys(row for check in checks for row in check.rows)
        return Plan(self.scale, {row: self._rows[row] for row in used}, checks)

    def _check(self, order: int, id_: str, words: Vocabulary) -> CheckPlan:
        key = (id_, words)
        if key not in self._checks:
            rule = self.rules[id_]
            self._checks[key] = self._numbered(order, id_, rule, rows_of(id_, rule, words, self.scale))
        return self._checks[key]

    def _numbered(self, order: int, id_: str, rule: Rule, found: CheckRows | None) -> CheckPlan:
        check = rule.check or id_
        if found is None:
            rungs = tuple((value, _rung_range(words)) for value, words in rule.rungs.items())
            return CheckPlan(check, id_, order, rule, category=rule.category, rungs=rungs)
        edges = tuple(Edge(rung, side, self._clauses(clauses)) for rung, side, clauses in found.edges)
        proper, get_home, last_resort = (self._clauses(asked) for asked in found.asked)
        clearance = self._clauses(found.clearance)
        return CheckPlan(
            check, id_, order, rule, clearance, edges, (proper, get_home, last_resort), found.symbols
        )

    def _clauses(self, clauses: RowClauses) -> Clauses:
        return tuple(tuple(self._number(row) for row in clause) for clause in clauses)

    def _number(self, row: Row) -> int:
        if row not in self._numbers:
            self._numbers[row] = len(self._rows)
            self._rows.append(row)
        return self._numbers[row]


def _rung_range(words: tuple[str, ...]) -> tuple[int, int]:
    ranks = [RUNGS.index(word) for word in words]
    return min(ranks), max(ranks)
