"""What to do next about a pair whose verdict is open: the act that most likely ends it for the least effort."""

from collections.abc import Iterable, Mapping, Sequence

from generator.compute.acts import (
    THUMB,
    WEAR,
    Act,
    acts_for,
    measurable,
    open_checks,
    running_look,
    untried,
    worth,
)
from generator.compute.fit.result import CheckFit, PairFit
from generator.compute.grouped import grouped
from generator.compute.reading_cost import instrument_lacking
from generator.model.dataset import Dataset
from generator.model.reading import Reading

# by chain and link
Acts = Mapping[tuple[str, str], Act]


def acts_of(dataset: Dataset, fits: Iterable[PairFit]) -> Acts:
    """Of the pairs about which there is something to do."""
    found = ((fit, next_act(dataset, fit)) for fit in fits)
    return {(fit.chain, fit.link): act for fit, act in found if act is not None}


def next_act(dataset: Dataset, fit: PairFit) -> Act | None:
    """The act with the highest chance to end it per effort; None where the verdict stands."""
    if not is_open(fit):
        return None
    if fit.runs_now is not None and fit.runs_now.not_looked and not decided(fit):
        return running_look(dataset, fit)
    checks = open_checks(fit)
    acts = [act for act in acts_for(dataset, fit) if act.reaches or fit.refused is not None or untried(fit)]
    if fit.refused is None and not untried(fit) and _beyond(dataset, fit, checks, acts):
        return None
    return max(acts, key=lambda act: (worth(act, checks), -act.effort), default=None)


def _beyond(dataset: Dataset, fit: PairFit, checks: Mapping[str, CheckFit], acts: Sequence[Act]) -> bool:
    """Does a check that nothing of the club can settle hold the verdict where it is?"""
    reached = frozenset(id_ for act in acts for id_ in act.reaches)
    # the rule of thumb speaks only of parts nobody has read
    reached |= {THUMB} if any(act.kind == "measure" for act in acts) else set()
    reached |= {"chain-worn"} if measurable(dataset, Reading("chain", fit.chain, WEAR)) else set()
    held = (check for id_, check in checks.items() if id_ not in reached and check.worst == fit.worst)
    return any(
        not any(measurable(dataset, each) for each in (*check.missing, *check.rests_on)) for check in held
    )


def out_of_reach(dataset: Dataset, fit: PairFit) -> Mapping[str, tuple[Reading, ...]]:
    """By kind of instrument that the club has not: the readings that keep the verdict open for want of it."""
    checks = open_checks(fit).values() if fit.option is not None else ()
    found = dict.fromkeys(reading for check in checks for reading in check.missing)
    return {
        kind: tuple(readings)
        for kind, readings in grouped(found, lambda each: instrument_lacking(dataset, each)).items()
        if kind is not None
    }


def stands(dataset: Dataset, fit: PairFit) -> bool:
    """One rung is left, or nothing that the club can do changes the worst one: it then counts as that."""
    return decided(fit) or next_act(dataset, fit) is None


def decided(fit: PairFit) -> bool:
    """One rung is left, of the joint that runs where the chain runs with this link."""
    if fit.runs_now is not None:
        return fit.runs_now.best == fit.runs_now.worst
    return fit.refused is None and fit.best == fit.worst


def is_open(fit: PairFit) -> bool:
    """Several rungs are left, or nobody can judge it yet, and the parts are of one family; a joint that is proper by
    numbers or by make is still to be tried."""
    if not fit.own_page:
        return False
    return fit.refused is not None or fit.best != fit.worst or untried(fit)
