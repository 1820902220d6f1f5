"""Why a pair came out as it did: the deciding check, with what was found and what was asked.

Goes in: a dataset and a fit.  Comes out: a few sentences, the first of which says it all.
"""

from collections.abc import Iterable

from generator.compute.fit.result import CheckFit, OptionFit, PairFit
from generator.compute.fit.ways import Way
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.base.verdicts import range_in_words
from generator.render.say.categories import joint_of
from generator.render.say.joint import way_in_words
from generator.render.say.names import GROUP_WORDS, listed
from generator.render.say.reasons import check_sentences
from generator.render.say.said import Said, joined
from generator.render.say.tried import what_was_tried
from generator.rules.rooms import bikes_with, rooms_differ

_OF_THE_ROOM = {
    "stick-out": "here the least room read counts",
    "stick-out-unread": "here a room counts that nobody has read",
}


def why(dataset: Dataset, fit: PairFit, ways: Iterable[Way]) -> tuple[Said, ...]:
    """Paragraphs: whether faults add up, what decides, what that makes it, why it matters, what else could be better."""
    if fit.option is None:
        return ((f"No verdict can be given: {fit.refused}.",),)
    joint = joint_of(dataset, fit.chain, fit.link, fit.option)
    check = fit.option.deciding_check
    paragraphs = (
        _added_up(dataset, fit.option),
        joined((check_sentences(check, joint), _makes(fit.option, check))),
        (dataset.shelf.joint_rules[check.rule_id].says,),
        *((said,) for said in what_was_tried(fit, fit.option)),
        _least_room(dataset, fit, check),
        _could_be_better(fit, fit.option, ways),
        _looked_at(fit, fit.option),
    )
    return tuple(paragraph for paragraph in paragraphs if paragraph)


def _makes(option: OptionFit, check: CheckFit) -> Said:
    if option.adds_up:
        return (f"That check by itself is {range_in_words(check.best, check.worst)}.",)
    if check.best == check.worst:
        closest = " No other check is closer to its limit." if check.worst == 0 else ""
        return (f"That makes it {RUNGS[check.worst]}.{closest}",)
    return (f"So it could be anything from {RUNGS[check.best]} to {RUNGS[check.worst]}.",)


def _added_up(dataset: Dataset, option: OptionFit) -> Said:
    """Four groups at get-home make last-resort."""
    if not option.adds_up:
        return ()
    rules = dataset.shelf.joint_rules
    strained: dict[str, list[str]] = {}
    for check in option.checks:
        if check.worst >= 1:
            strained.setdefault(check.group, []).append(rules[check.rule_id].title)
    named = [f"{GROUP_WORDS[group]} ({', '.join(titles)})" for group, titles in strained.items()]
    groups = len(strained)
    surely = len({check.group for check in option.checks if check.best >= 1})
    sure = (
        f"{_are(surely)} at get-home for sure, {groups} could be"
        if surely < groups
        else f"{_are(groups)} at get-home"
    )
    return (
        "No single check is worse than get-home, but small faults add up: four of the five groups of checks at "
        f"get-home make last-resort. Here {sure}: {listed(named)}.",
    )


def _are(count: int) -> str:
    return f"{count} {'is' if count == 1 else 'are'}"


def _least_room(dataset: Dataset, fit: PairFit, check: CheckFit) -> Said:
    if check.id not in _OF_THE_ROOM or not rooms_differ(dataset, fit.chain):
        return ()
    bikes = listed([bike.id for bike in bikes_with(dataset, fit.chain)])
    return (f"{bikes} run this chain: {_OF_THE_ROOM[check.id]}, on the page of each bike its own.",)


def _looked_at(fit: PairFit, option: OptionFit) -> Said:
    """Under a no-go nothing says how to fit it, so the way that was looked at is named here."""
    if fit.word != "no-go":
        return ()
    return (f"That is with {way_in_words(option)}; no other way to join the two comes out better.",)


def _could_be_better(fit: PairFit, option: OptionFit, ways: Iterable[Way]) -> Said:
    """Where the chosen way is decided, the range of the pair comes from another way that is still open."""
    if fit.best is None or fit.best >= option.best:
        return ()
    brightest = min(ways, key=lambda way: (way.best, way.worst))
    return (
        f"That is with {way_in_words(option)}. With {way_in_words(brightest)} it could be "
        f"{range_in_words(brightest.best, brightest.worst)}: once measured, that may be the better way.",
    )
