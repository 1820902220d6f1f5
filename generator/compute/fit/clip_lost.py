"""What a joint is worth once its clip is gone, or its rivet pins were never flared."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from generator.compute.fit.columns import Columns, column
from generator.compute.fit.evaluate import Category, RowValues, check_rungs, clause_value, row_values
from generator.compute.fit.result import PairFit, Span
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.shipped import NO_GO, PROPER, Rule
from generator.rules.joined import Joined
from generator.rules.plan import CheckPlan, Plan, PlanMaker
from generator.rules.symbols import SYMBOLS
from generator.rules.table import joint_scale, with_own_limits
from generator.rules.vocabulary import words_for

TABLE = "clip_lost"
# the one word of the rules that are not about numbers
ALWAYS = {"always": Category(np.zeros(1, dtype=np.int8), ("always",))}


@dataclass(frozen=True, slots=True)
class Makeshift:
    """One way to go on without the clip; `clearance` is None where no number decides, or it is not known."""

    rule_id: str
    best: int
    worst: int
    clearance: Span | None = None
    # no verdict is given on the joint itself: not without a look
    look_first: bool = False


def makeshifts(dataset: Dataset, fit: PairFit) -> tuple[Makeshift, ...]:
    """Never better than the joint is whatever its clip; none for a pair that is no-go for other reasons.  Of a pair that
    is refused each is `look_first`, and could be no-go."""
    refused = fit.without_clip is None
    joint_best, joint_worst = fit.without_clip or (PROPER, NO_GO)
    if joint_best == NO_GO or dataset.links[fit.link].record.plate_fit == "unknown":
        return ()
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    case = {"closure": link.record.closure, "plate_fit": link.record.plate_fit}
    rules, fit_of_plate = lost_rules(dataset), link.record.plate_fit
    plan = PlanMaker(rules, joint_scale(rules)).plan(case, lambda _: words_for(fit_of_plate))
    values = row_values(plan.rows, _columns(dataset, plan, chain, link), 1)
    best, worst, _ = check_rungs(plan, values, ALWAYS, 1)
    return tuple(
        # what every rung asks alike is worth the rung it stands under, and no more
        Makeshift(
            check.rule_id,
            max(int(best[i, 0]), joint_best, least := min(check.rule.bands, default=PROPER)),
            max(int(worst[i, 0]), joint_worst, least),
            _span(plan, check, values),
            refused,
        )
        for i, check in enumerate(plan.checks)
    )


def lost_rules(dataset: Dataset) -> Mapping[str, Rule]:
    """By id, under the club's own limits."""
    return with_own_limits(dataset.shelf.other_rules.get(TABLE, {}), dataset)


def _columns(dataset: Dataset, plan: Plan, chain: Part[Chain], link: Part[Link]) -> Columns:
    """The dimensions the rules speak of, each a column of one."""
    asked = {name for row in plan.rows.values() for name, _ in row.terms}
    parts = Joined(dataset, chain, link, None, None)
    return {name: column([SYMBOLS[name].value(parts)]) for name in sorted(asked)}


def _span(plan: Plan, check: CheckPlan, values: RowValues) -> Span | None:
    """The clearance over the readings; None where one is missing."""
    rows = [row for clause in check.clearance for row in clause]
    if not rows or any(values.missing[row][0] for row in rows):
        return None
    low, nominal, high = (int(end) / plan.scale for end in clause_value(check.clearance, values.ends)[:, 0])
    return Span(low, nominal, high)
