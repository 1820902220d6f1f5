"""Every number of a pair, for the fold of its page: what was found, between which ends, and what proper takes."""

from dataclasses import dataclass

from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from generator.render.base.verdicts import ShownVerdict, range_verdict
from generator.render.say.around import joint_around
from generator.render.say.checks import check_said, ends_in_short, found_in_short, limits_in_short, rule_of
from generator.render.say.said import Said


@dataclass(frozen=True, slots=True)
class Number:
    """One check; `verdict` is None where it is proper, `found` a sentence where it is no number."""

    title: str
    found: Said
    ends: Said
    proper: Said
    verdict: ShownVerdict | None


def numbers_of(dataset: Dataset, fit: PairFit) -> tuple[Number, ...]:
    """What is not proper first, then in the order of the rules."""
    option = fit.option
    if option is None:
        return ()
    around = joint_around(dataset, fit.chain, fit.link, option)
    ordered = sorted(option.checks, key=lambda check: (-check.worst, -check.best, check.category is not None))
    return tuple(
        Number(
            title=rule_of(dataset, check.rule_id).title,
            found=found_in_short(check, around) or check_said(check, around),
            ends=ends_in_short(check, around),
            proper=limits_in_short(check, around),
            verdict=range_verdict(check.best, check.worst) if check.worst else None,
        )
        for check in ordered
    )
