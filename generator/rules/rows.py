"""The limits of one rule multiplied out: each slack as whole rows, proved to nest and to stay below 2^53."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import product
from math import lcm, prod

from generator.model.shipped import Band, Rule
from generator.rules.forms import Form, Tree, Vocabulary, minus, parse_form

# a dimension that is not known lies between plus and minus this many nm; far beyond any
# real length, and small enough that every row stays below 2^53 (exact in a browser too)
UNBOUNDED_NM = 2**40
EXACT_BELOW = 2**53
# min() within max() within min() multiplies
MOST_CLAUSES = 64


class RuleFault(ValueError):
    """A rule that cannot be used: its edges do not nest, or a row could overflow."""


# (dimension, whole coefficient)
Terms = tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Row:
    """sum(coefficient x dimension) + constant in whole scaled base units."""

    terms: Terms
    constant: int


@dataclass(frozen=True, slots=True)
class _CheckTrees:
    clearance: Tree
    # slack of each printed edge, and for each rung the slacks it asks
    edges: tuple[tuple[int, str, Tree], ...]
    asked: tuple[tuple[Tree, ...], tuple[Tree, ...], tuple[Tree, ...]]

    def forms(self) -> Iterable[Form]:
        yield from self.clearance.leaves()
        for _, _, tree in self.edges:
            yield from tree.leaves()


# (rung, side, limit as written)
Limits = tuple[tuple[int, str, str], ...]


def _check_trees(id_: str, clearance: str, limits: Limits, words: Vocabulary) -> _CheckTrees:
    compared = parse_form(clearance, words)
    edges = [
        (rung, side, _edge_slack(compared, side, parse_form(limit, words))) for rung, side, limit in limits
    ]
    proper, get_home, last_resort = (tuple(_asked(id_, rung, edges)) for rung in range(3))
    return _CheckTrees(compared, tuple(edges), (proper, get_home, last_resort))


def _limits_of(rule: Rule) -> Limits:
    return tuple((rung, side, limit) for rung, band in rule.bands.items() for side, limit in _limits(band))


def _limits(band: Band) -> list[tuple[str, str]]:
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


def table_scale(rules: Mapping[str, Rule], vocabularies: Iterable[Vocabulary]) -> int:
    """The least whole factor that makes every coefficient of the whole table whole, so that slacks
    of different cases can be compared.  Raises RuleFault or FormFault like a plan."""
    scale = 1
    for words in vocabularies:
        for id_, rule in rules.items():
            if rule.clearance is not None:
                for form in _check_trees(id_, rule.clearance, _limits_of(rule), words).forms():
                    scale = lcm(scale, form.constant.denominator, *(c.denominator for _, c in form.terms))
    return scale


# a value is the least of the greatest of each clause
RowClauses = tuple[tuple[Row, ...], ...]


@dataclass(frozen=True, slots=True)
class CheckRows:
    """A check multiplied out into whole rows, not yet numbered."""

    clearance: RowClauses
    edges: tuple[tuple[int, str, RowClauses], ...]
    asked: tuple[RowClauses, RowClauses, RowClauses]
    symbols: tuple[str, ...]


def rows_of(id_: str, rule: Rule, words: Vocabulary, scale: int) -> CheckRows | None:
    """None for a check that is not about numbers."""
    return None if rule.clearance is None else _kept(id_, rule.clearance, _limits_of(rule), words, scale)


@lru_cache(maxsize=4096)
def _kept(id_: str, clearance: str, limits: Limits, words: Vocabulary, scale: int) -> CheckRows:
    """Many cases have most of their rules in common."""
    trees = _check_trees(id_, clearance, limits, words)
    proper, get_home, last_resort = (
        tuple(dict.fromkeys(clause for tree in asked for clause in _clauses(tree, scale)))
        for asked in trees.asked
    )
    return CheckRows(
        _clauses(trees.clearance, scale),
        tuple((rung, side, _clauses(tree, scale)) for rung, side, tree in trees.edges),
        (proper, get_home, last_resort),
        tuple(dict.fromkeys(name for form in trees.forms() for name, _ in form.terms)),
    )


def _clauses(tree: Tree, scale: int) -> RowClauses:
    if tree.form is not None:
        return ((_row(tree.form, scale),),)
    parts = [_clauses(part, scale) for part in tree.parts]
    if tree.kind == "min":
        return tuple(clause for part in parts for clause in part)
    if prod(map(len, parts)) > MOST_CLAUSES:
        raise RuleFault(f"a limit of this rule chooses in more than {MOST_CLAUSES} ways")
    return tuple(tuple(row for clause in choice for row in clause) for choice in product(*parts))


def _row(form: Form, scale: int) -> Row:
    """Proves that the row cannot reach 2^53, whatever the dimensions."""
    terms = tuple((name, int(c * scale)) for name, c in form.terms)
    constant = int(form.constant * scale)
    if sum(abs(c) for _, c in terms) * UNBOUNDED_NM + abs(constant) >= EXACT_BELOW:
        raise RuleFault("a limit has a number too large or too fine: it could grow beyond 2^53")
    return Row(terms, constant)
