"""The rule table made ready to evaluate: for one case of a joint, which rows of integers to compute.

Goes in: validated Rule records.  Comes out: a Plan of integer rows (scale x nm), each check with
its edges as clauses of rows: an edge holds where, in every clause, some row is >= 0.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import lcm

from generator.compute.fit.forms import Form, Tree, minus, parse_form
from generator.model.shipped import RUNGS, Band, Group, Rule

# a dimension that is not known lies between plus and minus this many nm; far beyond any
# real length, and small enough that every row stays below 2^53 (exact in a browser too)
UNBOUNDED_NM = 2**40
EXACT_BELOW = 2**53

Clauses = tuple[tuple[int, ...], ...]
Case = tuple[tuple[str, str], ...]


class RuleFault(ValueError):
    """A rule that cannot be used: its edges do not nest, or a row could overflow."""


@dataclass(frozen=True, slots=True)
class Row:
    """sum(coefficient x dimension) + constant in whole scaled base units."""

    terms: tuple[tuple[str, int], ...]
    constant: int


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
    rules: Mapping[str, Rule], case: Mapping[str, str], words: Mapping[str, Form], scale: int
) -> Plan:
    """The plan of one case.  Raises RuleFault or FormFault where the table cannot be used."""
    chosen = [(order, id_, rule) for order, (id_, rule) in enumerate(rules.items()) if applies(rule, case)]
    trees = [(order, id_, rule, _check_trees(id_, rule, words)) for order, id_, rule in chosen]
    rows = _Rows(scale)
    checks = tuple(_check_plan(order, id_, rule, checked, rows) for order, id_, rule, checked in trees)
    return Plan(scale, tuple(rows.rows), checks)


@dataclass(frozen=True, slots=True)
class _CheckTrees:
    clearance: Tree | None
    # slack of each printed edge, and for each rung the slacks it asks
    edges: tuple[tuple[int, str, Tree], ...] = ()
    asked: tuple[tuple[Tree, ...], ...] = ((), (), ())

    def forms(self) -> Iterable[Form]:
        if self.clearance is not None:
            yield from self.clearance.leaves()
        for _, _, tree in self.edges:
            yield from tree.leaves()


def _check_trees(id_: str, rule: Rule, words: Mapping[str, Form]) -> _CheckTrees:
    if rule.clearance is None:
        return _CheckTrees(None)
    clearance = parse_form(rule.clearance, words)
    bands = (rule.proper, rule.get_home, rule.last_resort)
    edges = [
        (rung, side, _edge_slack(clearance, side, parse_form(limit, words)))
        for rung, band in enumerate(bands)
        for side, limit in _limits(band)
    ]
    asked = tuple(tuple(_asked(id_, rung, edges)) for rung in range(3))
    return _CheckTrees(clearance, tuple(edges), asked)


def _limits(band: Band | None) -> list[tuple[str, str]]:
    if band is None:
        return []
    return [(side, limit) for side, limit in (("low", band.low), ("high", band.high)) if limit is not None]


def _edge_slack(clearance: Tree, side: str, limit: Tree) -> Tree:
    return minus(clearance, limit) if side == "low" else minus(limit, clearance)


def _asked(id_: str, rung: int, edges: list[tuple[int, str, Tree]]) -> Iterable[Tree]:
    """The slacks a rung asks: its own limit of each side (or that of the stricter rung where it
    has none), and each looser limit unless it provably follows, so that rungs always nest."""
    for side in ("low", "high"):
        mine = [(r, tree) for r, s, tree in edges if s == side]
        stricter = [tree for r, tree in mine if r <= rung]
        if stricter:
            yield stricter[-1]
        for r, tree in mine:
            if r > rung and not (stricter and _follows(id_, stricter[-1], tree)):
                yield tree


def _follows(id_: str, strict: Tree, loose: Tree) -> bool:
    """Does strict >= 0 prove loose >= 0 for all positive dimensions?  Raises RuleFault on the reverse."""
    if strict.form is None or loose.form is None:
        return False
    difference = loose.form.plus(strict.form, Fraction(-1))
    if difference.never_negative:
        return True
    if difference.times(Fraction(-1)).never_negative:
        raise RuleFault(f"the limits of '{id_}' do not nest: a looser rung asks more than a stricter one")
    return False


def table_scale(rules: Mapping[str, Rule], vocabularies: Iterable[Mapping[str, Form]]) -> int:
    """The least whole factor that makes every coefficient of the whole table whole, so that slacks
    of different cases can be compared.  Raises RuleFault or FormFault like make_plan."""
    scale = 1
    for words in vocabularies:
        for id_, rule in rules.items():
            for form in _check_trees(id_, rule, words).forms():
                scale = lcm(scale, form.constant.denominator, *(c.denominator for _, c in form.terms))
    return scale


class _Rows:
    """Rows in order of first use, each once; proves that none can reach 2^53."""

    def __init__(self, scale: int) -> None:
        self.scale = scale
        self.rows: list[Row] = []
        self._index: dict[Row, int] = {}

    def index(self, form: Form) -> int:
        terms = tuple((name, int(c * self.scale)) for name, c in form.terms)
        row = Row(terms, int(form.constant * self.scale))
        if sum(abs(c) for _, c in terms) * UNBOUNDED_NM + abs(row.constant) >= EXACT_BELOW:
            raise RuleFault(f"a row of this rule could grow beyond 2^53: {form}")
        if row not in self._index:
            self._index[row] = len(self.rows)
            self.rows.append(row)
        return self._index[row]

    def clauses(self, tree: Tree) -> Clauses:
        if tree.form is not None:
            return ((self.index(tree.form),),)
        parts = [self.clauses(part) for part in tree.parts]
        if tree.kind == "min":
            return tuple(clause for part in parts for clause in part)
        return tuple(tuple(i for clause in choice for i in clause) for choice in product(*parts))


def _check_plan(order: int, id_: str, rule: Rule, trees: _CheckTrees, rows: _Rows) -> CheckPlan:
    check = rule.check or id_
    if trees.clearance is None:
        rungs = tuple((value, _rung_range(words)) for value, words in rule.rungs.items())
        return CheckPlan(check, id_, order, rule, category=rule.category, rungs=rungs)
    edges = tuple(Edge(rung, side, rows.clauses(tree)) for rung, side, tree in trees.edges)
    proper, get_home, last_resort = (
        tuple(dict.fromkeys(clause for tree in asked for clause in rows.clauses(tree)))
        for asked in trees.asked
    )
    symbols = tuple(dict.fromkeys(name for form in trees.forms() for name, _ in form.terms))
    clearance = rows.clauses(trees.clearance)
    return CheckPlan(check, id_, order, rule, clearance, edges, (proper, get_home, last_resort), symbols)


def _rung_range(words: tuple[str, ...]) -> tuple[int, int]:
    ranks = [RUNGS.index(word) for word in words]
    return min(ranks), max(ranks)
