"""Every check that brings a pair to its verdict, beside the one that decides.

Goes in: a dataset and a fit.  Comes out: groups of checks with a sentence each, the gravest first.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.compute.fit.result import CheckFit, OptionFit, PairFit
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.say.categories import Joint, category_sentence, joint_of
from generator.render.say.measured import found, held_against
from generator.render.say.said import Said, joined


@dataclass(frozen=True, slots=True)
class Reason:
    """One check under its title."""

    title: str
    says: Said


@dataclass(frozen=True, slots=True)
class Reasons:
    """What several checks do to the verdict, and what each found."""

    lead: str
    checks: tuple[Reason, ...]


def reasons_beside(dataset: Dataset, fit: PairFit) -> tuple[Reasons, ...]:
    """The checks as grave as the deciding one; and of an open verdict those that keep it from being better."""
    option = fit.option
    if option is None or option.worst == 0:
        return ()
    joint = joint_of(dataset, fit.chain, fit.link, option)
    groups = ((lead, tuple(_told(joint, checks))) for lead, checks in _grouped(option))
    return tuple(Reasons(lead, checks) for lead, checks in groups if checks)


def check_sentences(check: CheckFit, joint: Joint) -> Said:
    """One check in a sentence or two."""
    if check.category is not None:
        return (category_sentence(check, joint),)
    return joined((found(check, joint), held_against(check, joint)))


def _grouped(option: OptionFit) -> Iterator[tuple[str, Iterable[CheckFit]]]:
    others = [check for check in option.checks if check.id != option.deciding]
    if option.adds_up:
        strained = sorted((c for c in others if c.worst >= 1), key=lambda c: (-c.worst, -c.best))
        yield "The other checks that add up:", strained
        return
    worst, best = option.deciding_check.worst, option.deciding_check.best
    alike = [check for check in others if check.worst == worst]
    yield from _alike(alike, best, worst)
    # whatever the open ones come to, these are sure
    floor = [check for check in others if check.worst < worst and check.best >= max(1, option.best)]
    yield f"Whatever comes of that, it is {RUNGS[option.best]} at best by:", floor


def _alike(checks: list[CheckFit], best: int, worst: int) -> Iterator[tuple[str, Iterable[CheckFit]]]:
    sure = [check for check in checks if check.best == check.worst]
    still_open = [check for check in checks if check.best < check.worst]
    yield f"{RUNGS[worst].capitalize()} by these checks as well:", sure
    order = "as well" if best < worst else "by what is known"
    yield f"These checks could make it {RUNGS[worst]} {order}:", still_open


def _told(joint: Joint, checks: Iterable[CheckFit]) -> Iterator[Reason]:
    rules = joint.dataset.shelf.joint_rules
    for check in checks:
        yield Reason(rules[check.rule_id].title, check_sentences(check, joint))
