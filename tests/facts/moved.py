"""Every limit of the joint moved in turn by a fifth of the width of its band, and the trade facts that flip."""

import ast
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

import yaml

from generator.model.quantity import NM_PER_MM
from generator.model.shipped import Band, Rule
from generator.rules.forms import Form, FormFault, parse_form
from generator.rules.rows import RuleFault
from generator.rules.vocabulary import words_for
from tests import oracle
from tests.case_table import CaseTable, Outcome
from tests.clubs import DATA, exactly, unchecked
from tests.pairs import disagreements, fact_club, facts

COMMAND = "python -m tests.facts"
TARGET = DATA / "how_sure.yaml"
SHARE = Fraction(1, 5)
# a limit that stands alone at zero has no band; a fifth of this is the least step of the table, 0.05 mm
ALONE = Fraction("0.25")
PLACES = ("low", "middle", "high")
RUNGS = ("proper", "get_home", "last_resort")


@dataclass(frozen=True)
class Move:
    """One limit moved: `by` is what is added to it, a form; `out` makes the band wider."""

    rule_id: str
    rung: int
    side: str
    out: bool
    by: Form
    rule: Rule


@cache
def table() -> CaseTable:
    """Every fact at the low, middle and high of its ranges; label: `fact/place`."""
    return CaseTable(
        {f"{id_}/{place}": exactly(unchecked(fact_club(fact, place))) for id_, fact in facts().items() for place in PLACES}
    )  # fmt: skip


def limits(rules: Mapping[str, Rule]) -> Iterator[tuple[str, int, str]]:
    """(rule, rung, side) of every limit written in the table."""
    for id_, rule in rules.items():
        for rung, name in enumerate(RUNGS):
            band: Band | None = getattr(rule, name)
            for side in ("low", "high"):
                if band is not None and getattr(band, side) is not None:
                    yield id_, rung, side


def moves(rules: Mapping[str, Rule]) -> Iterator[Move]:
    """Each limit in and out; one that would pass its neighbour goes only as far as that."""
    for id_, rung, side in limits(rules):
        rule = rules[id_]
        for out in (False, True):
            step = width(rule, rung, side).times(SHARE)
            room = _room(rule, rung, side, out)
            if room is not None and _magnitude(room) < _magnitude(step):
                step = room
            by = step.times(Fraction(-1 if (side == "low") == out else 1))
            if by.terms or by.constant:
                yield Move(id_, rung, side, out, by, moved(rule, rung, side, by))


def moved(rule: Rule, rung: int, side: str, by: Form) -> Rule:
    """The rule with `by` added to one limit."""
    band: Band = getattr(rule, RUNGS[rung])
    text: str = getattr(band, side)
    changed = band.model_copy(update={side: plus(text, form_text(by))})
    return rule.model_copy(update={RUNGS[rung]: changed})


def plus(limit: str, by: str) -> str:
    """A limit and a form added to it; min(a, b) + c is min(a + c, b + c)."""
    return _plus(ast.parse(limit, mode="eval").body, by)


def _plus(node: ast.expr, by: str) -> str:
    if isinstance(node, ast.Call):
        return f"{ast.unparse(node.func)}({', '.join(_plus(argument, by) for argument in node.args)})"
    return f"{ast.unparse(node)} + ({by})"


def form_text(form: Form) -> str:
    """A form as the rule table writes it, millimetres and kilonewtons."""
    parts = [f"{_decimal(c)} * {name}" for name, c in form.terms]
    constant = form.constant / NM_PER_MM
    return " + ".join([*parts, *([_decimal(constant)] if constant or not parts else [])])


def _decimal(value: Fraction) -> str:
    text = f"{float(value):.9f}".rstrip("0").rstrip(".")
    assert Fraction(text) == value, value
    return text


def width(rule: Rule, rung: int, side: str) -> Form:
    """From limit to limit of the same rung; of a band open on one side from the stricter rung's limit; of
    proper, open on one side, to the looser rung's or the size of its own limit, whichever is less."""
    here = _limit(rule, rung, side)
    for other in (_limit(rule, rung, _across(side)), _limit(rule, rung - 1, side)):
        if (found := _simple_difference(here, other)) is not None:
            return found
    own = [form.times(_sign(form)) for form in here if len(form.terms) + bool(form.constant) == 1]
    looser = _simple_difference(here, _limit(rule, rung + 1, side))
    return min([*own[:1], *([looser] if looser else [])], key=_magnitude, default=Form((), ALONE * NM_PER_MM))


def _sign(form: Form) -> Fraction:
    return Fraction(1 if _magnitude(form) > 0 else -1)


def _across(side: str) -> str:
    return "high" if side == "low" else "low"


def _limit(rule: Rule, rung: int, side: str) -> list[Form]:
    """The forms of a limit; of a limit left out, those of the next stricter rung."""
    if not 0 <= rung < len(RUNGS):
        return []
    written = [
        getattr(getattr(rule, name), side) for name in RUNGS[: rung + 1] if getattr(rule, name) is not None
    ]
    texts = [text for text in written if text is not None]
    return list(parse_form(texts[-1], words_for("press")).leaves()) if texts else []


def _simple_difference(here: list[Form], there: list[Form]) -> Form | None:
    """A difference that is one number, or so many times one dimension; made positive."""
    for mine in here:
        for other in there:
            difference = mine.plus(other, Fraction(-1))
            if len(difference.terms) + bool(difference.constant) == 1:
                return difference.times(_sign(difference))
    return None


def _magnitude(form: Form) -> Fraction:
    return form.constant + sum((c for _, c in form.terms), Fraction(0)) * NM_PER_MM


def _room(rule: Rule, rung: int, side: str, out: bool) -> Form | None:
    """How far to the neighbour rung's limit on this side; None where there is none."""
    near = rung + 1 if out else rung - 1
    return _simple_difference(_limit(rule, rung, side), _limit(rule, near, side))


def agreements(
    verdicts: Mapping[str, tuple[int, int]], options: list[tuple[int, int]]
) -> dict[str, tuple[str, bool]]:
    """`fact/place/what` -> what is said, and whether the trade says so too; what: pair, or an option."""
    found: dict[str, tuple[str, bool]] = {}
    said_of = {
        (label, way.seals): ends
        for label, way, ends in zip(table().labels, table().ways, options, strict=True)
        if way.seat != "clip" and way.spacer is None
    }
    for label, ends in verdicts.items():
        fact = facts()[label.split("/")[0]]
        found[f"{label}/pair"] = (said(ends), said(ends) in fact["expect"])
        for option, wanted in fact.get("expect_option", {}).items():
            of_option = said(said_of[label, option_of(label, option)])
            found[f"{label}/{option}"] = (of_option, of_option in wanted)
    return found


def option_of(label: str, option: str) -> str:
    """A fact says left-out of a link that never had seals too; the engine calls that none."""
    words = {way.seals for at, way in zip(table().labels, table().ways, strict=True) if at == label}
    return "none" if option == "left-out" and "none" in words else option


def said(ends: tuple[int, int]) -> str:
    best, worst = ends
    return oracle.RUNGS[best] if best == worst else f"{oracle.RUNGS[best]} to {oracle.RUNGS[worst]}"


def judged(changed: Mapping[str, Outcome]) -> dict[str, tuple[str, bool]]:
    return agreements(table().verdicts(changed), table().options(changed))


def flips() -> Iterator[dict[str, str]]:
    """Each fact that a move makes come out otherwise than the trade says, or as it says where it did not."""
    before = judged({})
    for move in moves(table().rules):
        try:
            after = judged({move.rule_id: table().check(move.rule_id, move.rule)})
        except (RuleFault, FormFault) as fault:
            raise AssertionError(f"{move}: {fault}") from fault
        for key, (verdict, agrees) in after.items():
            if agrees != before[key][1]:
                yield _flip(move, key, before[key][0], verdict)


def _flip(move: Move, key: str, before: str, after: str) -> dict[str, str]:
    fact, place, what = key.split("/")
    return {
        "rule": move.rule_id,
        "rung": oracle.RUNGS[move.rung],
        "side": move.side,
        "moved": "out" if move.out else "in",
        "by": _shown(move),
        "fact": fact,
        "case": place if what == "pair" else f"{place}, seals {what}",
        "before": before,
        "after": after,
    }


def _shown(move: Move) -> str:
    text = form_text(move.by.times(_sign(move.by)))
    unit = "kN" if "F" in str(move.rule.clearance) else "mm"
    return text if move.by.terms else f"{text} {unit}"


def how_sure() -> dict[str, Any]:
    return {
        "made_with": COMMAND,
        "share_percent": str(int(SHARE * 100)),
        "limits": str(len(list(limits(table().rules)))),
        "facts": str(len(facts())),
        "disagree": [
            {"fact": d["fact"], "case": d["case"], "trade": d["trade"], "computed": d["computed"], "because": d["because"]}
            for d in disagreements()
        ],
        "flips": list(flips()),
    }  # fmt: skip


def text() -> str:
    """The file as it is committed."""
    head = "# Made by the command below: every limit moved, and the trade facts that flip.  Do not edit.\n"
    body: str = yaml.safe_dump(
        how_sure(), sort_keys=False, width=1000, allow_unicode=True, default_flow_style=None
    )
    return head + body
