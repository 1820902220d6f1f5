"""Why parts that meet came out as they did: the deciding check in a sentence or two.

Goes in: a dataset and a fit.  Comes out: what was found, what each rung takes, what is not known.
"""

from math import ceil, floor

from generator.compute.fit.result import CheckFit, MeasureNext, Span
from generator.compute.others.result import NeighbourFit, PartFit
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.model.shipped import RUNGS, Rule
from generator.render.base.lengths import signed
from generator.render.say.clearances import Phrase
from generator.render.say.limits import limits_of, numbers_of
from generator.render.say.names import listed, reading_name
from generator.render.say.next_step import short_step
from generator.render.say.part_categories import part_category
from generator.render.say.part_phrases import Around
from generator.render.say.said import Figures, Said, capital, figures_for, joined, small


def part_why(dataset: Dataset, fit: PartFit) -> Said:
    check = fit.deciding_check
    if check is None:
        return (f"{capital(fit.refused or '')}.",)
    seal = next((part.id for part in fit.parts if part.kind == "seal"), None)
    packed = seal is not None and dataset.seals[seal].record.shape == "washer"
    said = check_said(dataset, check, Around(fit.relation, "packed" if packed else "fitted"))
    return joined((said, _percent_of_seal(dataset, check, seal), _adds_up(fit.adds_up)))


def neighbour_why(dataset: Dataset, fit: NeighbourFit) -> Said:
    """Which of the two joints decides, or the bush ends, and why."""
    check = fit.deciding_check
    if check is None:
        return (f"{capital(fit.refused or '')}.",)
    sides = {"joint on the chain": fit.on_chain, "joint on the strip": fit.on_strip}
    side = sides.get(fit.decided_by or "")
    rule = rule_of(dataset, check.rule_id)
    where = f"{capital(fit.decided_by or '')}: {small(rule.title)}."
    around = Around("neighbours", fit.seals or "fitted")
    found = _numbers(dataset, check, around) if check.category is None else (rule.says,)
    return joined(((where,), found, _adds_up(side is not None and side.adds_up)))


def check_said(dataset: Dataset, check: CheckFit, around: Around) -> Said:
    if check.category is not None:
        return (part_category(check.id, check.category),)
    return _numbers(dataset, check, around)


def rule_of(dataset: Dataset, rule_id: str) -> Rule:
    """Of the joint or of any other table."""
    shelf = dataset.shelf
    tables = (shelf.joint_rules, *shelf.other_rules.values())
    return next(table[rule_id] for table in tables if rule_id in table)


def next_words(dataset: Dataset, found: MeasureNext | None, best: int | None, worst: int | None) -> str:
    """For a cell: the reading that would settle most."""
    if found is not None:
        return short_step(dataset, found)
    return "nothing" if best == worst and best is not None else "look at it"


def _numbers(dataset: Dataset, check: CheckFit, around: Around) -> Said:
    if check.category is not None:
        return ()
    if check.unit == "%":
        return joined((_elongation(check), _gone(dataset, check)))
    if check.unit == "kN":
        return _gone(dataset, check)
    return joined((_found(check, around), _limits(check, around), _gone(dataset, check)))


def _found(check: CheckFit, around: Around) -> Said:
    if check.clearance is None:
        return ()
    span, figures, phrase = check.clearance, figures_for(numbers_of(check)), around.phrase(check.id)
    nominal: Said = (f"{phrase.subject} ", *phrase.amount(span.nominal, figures))
    if round(span.low) == round(span.high):
        return (*nominal, ".")
    return (*nominal, " as read; the readings allow ", *_ends(span, phrase, figures), ".")


def _ends(span: Span, phrase: Phrase, figures: Figures) -> Said:
    """Where the ends lie on both sides of nothing each says what it is."""
    if round(span.low) < 0 <= round(span.high) and phrase.more != phrase.less:
        return (*phrase.limit(span.low, figures, "low"), " to ", *phrase.limit(span.high, figures, "high"))
    return figures.ends(span.low, span.high)


def _limits(check: CheckFit, around: Around) -> Said:
    rungs = range(min(check.worst, 2) + 1)
    return limits_of(check, around.phrase(check.id), rungs, figures_for(numbers_of(check)))


def _gone(dataset: Dataset, check: CheckFit) -> Said:
    if not check.missing or check.settled_by_trial:
        return ()
    return (f"Not known: {listed([reading_name(dataset, reading) for reading in check.missing])}.",)


def _percent_of_seal(dataset: Dataset, check: CheckFit, seal: str | None) -> Said:
    """Seal practice speaks in per cent of the free thickness, two seals to a pin."""
    free = dataset.seals[seal].dims.get("thickness") if seal is not None else None
    if check.id != "squeeze" or free is None or check.clearance is None:
        return ()
    span, whole = check.clearance, 2 * free.nominal / 100
    low, nominal, high = floor(span.low / whole), round(span.nominal / whole), ceil(span.high / whole)
    return (f"Of their thickness that is {signed(nominal)} %, from {signed(low)} to {signed(high)} %.",)


def _elongation(check: CheckFit) -> Said:
    """Strip less chain, in per cent; the limits are alike on both sides."""
    if check.clearance is None:
        return ()
    value = check.clearance.nominal / NM_PER_MM
    more = "more" if value > 0 else "less"
    at = {edge.rung: edge.at for edge in check.edges if edge.side == "high" and edge.at is not None}
    takes = listed(
        [f"{RUNGS[rung]} takes up to {limit / NM_PER_MM:.1f} %" for rung, limit in sorted(at.items())]
    )
    return (f"The strip is worn {abs(value):.1f} % {more} than the chain; {takes}.",)


def _adds_up(adds_up: bool) -> Said:
    return ("Small faults in four groups of checks add up to last-resort.",) if adds_up else ()
