"""What a check found, in one sentence made from the words of its rule, and the limits it is held against."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.compute.fit.result import CheckFit, EdgeFit
from generator.model.dataset import Dataset
from generator.model.quantity import MN_PER_KN, NM_PER_MM
from generator.model.shipped import Rule
from generator.render.base.lengths import ShownLength, shown_high, shown_length, shown_low, signed
from generator.render.say.names import listed, reading_name
from generator.render.say.said import Said, joined, small

_AMOUNT = "{n}"


@dataclass(frozen=True, slots=True)
class Around:
    """What a check stands in: what the names in its words are, and by check the length that is a hundred per cent."""

    dataset: Dataset
    facts: Mapping[str, str] = field(default_factory=dict)
    wholes: Mapping[str, float] = field(default_factory=dict)


def rule_of(dataset: Dataset, rule_id: str) -> Rule:
    """Of the joint or of any other table."""
    shelf = dataset.shelf
    tables = (shelf.joint_rules, *shelf.other_rules.values())
    return next(table[rule_id] for table in tables if rule_id in table)


def words_of(dataset: Dataset, rule_id: str) -> Mapping[str, str]:
    """A rule that is the same as one of the joint is said as that one, unless it has words of its own."""
    rule = rule_of(dataset, rule_id)
    if rule.words or rule.same_as is None:
        return rule.words
    return dataset.shelf.joint_rules[rule.same_as].words


def check_said(check: CheckFit, around: Around) -> Said:
    """One sentence: what was found, or what is missing."""
    words = words_of(around.dataset, check.rule_id)
    if check.category is not None:
        pattern = words.get(check.category)
        return (pattern.format_map(around.facts),) if pattern else (_bare(check, around),)
    if check.clearance is None:
        return (_not_known(check, around),)
    if check.unit == "kN" or "percent" in words or check.unit == "%":
        return (_in_numbers(check, around, words),)
    return _in_lengths(check, around, words)


def _bare(check: CheckFit, around: Around) -> str:
    """A rule of a club's own may have a word that nobody wrote a sentence for."""
    found = (check.category or "").replace("-", " ")
    return f"{rule_of(around.dataset, check.rule_id).title}: {found}."


def _not_known(check: CheckFit, around: Around) -> str:
    title = rule_of(around.dataset, check.rule_id).title
    gone = listed([reading_name(around.dataset, reading) for reading in check.missing])
    if check.settled_by_trial or check.by_make:
        return f"{title}: {'by make, not read' if check.by_make else 'shown by hand'}."
    return f"{title}: not known, for want of {gone}." if gone else f"{title}: not known."


def _in_lengths(check: CheckFit, around: Around, words: Mapping[str, str]) -> Said:
    assert check.clearance is not None
    nominal = round(check.clearance.nominal)
    sign = "equal" if nominal == 0 and "equal" in words else "less" if nominal < 0 else "more"
    pattern = words.get(sign)
    if pattern is None:
        return (f"{rule_of(around.dataset, check.rule_id).title}: ", shown_length(nominal), ".")
    before, amount, after = pattern.partition(_AMOUNT)
    pieces: Said = (before, shown_length(abs(nominal)), after) if amount else (before,)
    return tuple(piece for piece in pieces if piece != "")


def _in_numbers(check: CheckFit, around: Around, words: Mapping[str, str]) -> str:
    assert check.clearance is not None
    nominal = check.clearance.nominal
    if check.unit == "kN":
        return words.get("force", "{n} kN.").format(n=f"{nominal / MN_PER_KN:.1f}")
    if check.unit == "%":
        sign = "equal" if nominal == 0 else "less" if nominal < 0 else "more"
        return words.get(sign, "{n} %.").format(n=f"{abs(nominal) / NM_PER_MM:.1f}")
    share = percent(check, nominal, around)
    if share is None:
        return f"{rule_of(around.dataset, check.rule_id).title}: {shown_length(round(nominal)).mm}."
    pattern = words["less-percent"] if share < 0 and "less-percent" in words else words["percent"]
    return pattern.format(n=abs(share) if "less-percent" in words else signed(share))


def percent(check: CheckFit, length: float, around: Around) -> int | None:
    """A length of a check as whole per cent of what it is measured by; None where that is not known."""
    whole = around.wholes.get(check.id)
    return round(100 * length / whole) if whole else None


def found_in_short(check: CheckFit, around: Around) -> Said:
    """The nominal value alone: `0.15 mm` or `18 %`; empty for a category and where it is not known."""
    if check.clearance is None or check.category is not None:
        return ()
    return (_value(check, check.clearance.nominal, around),)


def ends_in_short(check: CheckFit, around: Around) -> Said:
    """`0.09 to 0.21 mm`, ends shown outward; empty where both are alike."""
    span = check.clearance
    if span is None or check.category is not None or round(span.low) == round(span.high):
        return ()
    low, high = _value(check, span.low, around), _value(check, span.high, around)
    if isinstance(low, ShownLength):
        return _range(shown_low(span.low), shown_high(span.high))
    return _range(low, high)


def limits_in_short(check: CheckFit, around: Around, rung: int = 0) -> Said:
    """`0.02 to 0.25 mm`, `0.50 mm or more`: what a rung takes; empty where it has no limits or they are not known."""
    at = {edge.side: edge.at for edge in edges_of_rung(check, rung)}
    if not at or any(value is None for value in at.values()):
        return ()
    low, high = (_value(check, at[side] or 0.0, around) if side in at else None for side in ("low", "high"))
    if low is not None and high is not None:
        return _range(low, high)
    return (low, " or more") if low is not None else (high or "", " or less")


def _range(low: str | ShownLength, high: str | ShownLength) -> Said:
    """The unit once."""
    if isinstance(low, str) or isinstance(high, str):
        return (f"{str(low).removesuffix(' %').removesuffix(' kN')} to {high}",)
    mm, inch = low.mm.removesuffix(" mm"), low.inch.removesuffix(" in")
    return (ShownLength(f"{mm} to {high.mm}", f"{inch} to {high.inch}", low.nm),)


def _value(check: CheckFit, value: float, around: Around) -> str | ShownLength:
    if check.unit == "kN":
        return f"{value / MN_PER_KN:.1f} kN"
    if check.unit == "%":
        return f"{value / NM_PER_MM:.1f} %"
    share = percent(check, value, around)
    return shown_length(round(value)) if share is None else f"{signed(share)} %"


def edges_of_rung(check: CheckFit, rung: int) -> tuple[EdgeFit, ...]:
    """The limits a rung asks: on each side its own, or that of the stricter rung where it has none."""
    found = []
    for side in ("low", "high"):
        mine = [edge for edge in check.edges if edge.side == side and edge.rung <= rung]
        if mine:
            found.append(max(mine, key=lambda edge: edge.rung))
    return tuple(found)


def with_limit(check: CheckFit, around: Around) -> Said:
    """What was found, and what the better rung would have taken."""
    said = check_said(check, around)
    limit = limits_in_short(check, around) if check.worst > 0 else ()
    if not limit or check.clearance is None:
        return said
    *first, last = said
    closed = last.removesuffix(".") if isinstance(last, str) else last
    short = _short_of_proper(check, around)
    if short is not None:
        return (*first, closed, "; proper needs ", short, " more.")
    return (*first, closed, "; proper takes ", *_lower_first(limit), ".")


def _short_of_proper(check: CheckFit, around: Around) -> ShownLength | None:
    """How much is lacking, where the words tell a length that is less than nothing by its amount and only a least one
    is asked: the limit would read as if it were of that amount."""
    edges, found = edges_of_rung(check, 0), check.clearance
    if found is None or round(found.nominal) >= 0 or "less" not in words_of(around.dataset, check.rule_id):
        return None
    if [edge.side for edge in edges] != ["low"] or edges[0].at is None:
        return None
    lacking = _value(check, edges[0].at - found.nominal, around)
    return lacking if isinstance(lacking, ShownLength) else None


def told(check: CheckFit, around: Around) -> Said:
    """What was found and what proper takes; of a check that is open, both ends of what the readings allow."""
    ends = ends_in_short(check, around) if check.best < check.worst else ()
    return joined((with_limit(check, around), ("It could be ", *ends, ".") if ends else ()))


def _lower_first(said: Said) -> Said:
    return tuple(small(piece) if n == 0 and isinstance(piece, str) else piece for n, piece in enumerate(said))
