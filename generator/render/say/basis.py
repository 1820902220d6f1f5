"""How a verdict is known: its weakest evidence, its chances, the days of its readings."""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import CheckFit, PairFit
from generator.model.dataset import Dataset
from generator.model.quantity import EVIDENCE_ORDER, Evidence, weakest
from generator.render.say.names import listed


def evidence_sentence(dataset: Dataset, fit: PairFit, brief: bool = False) -> str:
    """Of what decides first; weaker readings are named with the checks they bear on, unless it must be brief. Readings
    and limits apart, since the first can be mended with a caliper.
    """
    option = fit.option
    if option is None:
        return ""
    rules = dataset.shelf.joint_rules
    checks = [c for c in option.checks if c.worst >= 1] if option.adds_up else [option.deciding_check]
    limit = _words(weakest(rules[check.rule_id].evidence for check in checks))
    held = f"{'the weakest limit they are' if len(checks) > 1 else 'the limit it is'} held against is {limit}"
    names = listed([rules[check.rule_id].title for check in checks])
    decides = f"{'What adds up' if option.adds_up else 'What decides'} ({names})"
    others = [check for check in option.checks if check not in checks]
    return f"{decides} {_rests_on(checks)}; {held}.{'' if brief else _weaker(dataset, checks, others)}"


def _rests_on(checks: Sequence[CheckFit]) -> str:
    """How well the readings behind what decides are known."""
    read = [check for check in checks if check.category is None]
    if not read:
        return "is no reading: it was looked at or asked"
    if any(check.by_make for check in read):
        return "goes by the make of both, where nothing is read"
    if all(_settled(check) for check in read):
        return "is settled by a dry fit"
    known = weakest(check.evidence for check in read if not _settled(check))
    if known == "unknown":
        return "lacks a reading that is not known"
    return f"rests on readings of which the weakest is {_words(known)}"


def _settled(check: CheckFit) -> bool:
    return check.settled_by_trial and check.evidence == "unknown"


def _weaker(dataset: Dataset, deciding: Sequence[CheckFit], others: Sequence[CheckFit]) -> str:
    """Which other checks rest on less than what decides."""
    least = EVIDENCE_ORDER.index(
        weakest(c.evidence for c in deciding if c.category is None and not _settled(c))
    )
    titles: dict[Evidence, list[str]] = {}
    for check in others:
        weaker = check.category is None and EVIDENCE_ORDER.index(check.evidence) > least
        if weaker and not _settled(check):
            titles.setdefault(check.evidence, []).append(dataset.shelf.joint_rules[check.rule_id].title)
    if not titles:
        return ""
    said = [
        f"{'not known' if evidence == 'unknown' else _words(evidence)} in {listed(titles[evidence])}"
        for evidence in sorted(titles, key=EVIDENCE_ORDER.index)
    ]
    return f" Weaker readings bear on other checks only: {'; '.join(said)}."


def _words(evidence: str) -> str:
    return {
        "common-practice": "common practice, no source",
        "from-memory": "from memory, no source",
    }.get(evidence, evidence)


def chance_sentence(fit: PairFit) -> str:
    """A remark for the bench, never a verdict; nothing where one check does not make the verdict."""
    shares = fit.chance_percent
    decided = fit.best == fit.worst or fit.option is None or fit.option.adds_up
    if decided or not shares or max(shares.values()) == 100:
        return ""
    parts = listed([f"{word} {share} %" for word, share in shares.items() if share])
    return (
        f"A remark for the bench, which changes no verdict: by the deciding check alone the chances are {parts}, "
        "each reading taken as equally likely anywhere within its ±."
    )


def calculated_sentence(dataset: Dataset, fit: PairFit) -> str:
    days = sorted(set(_days(dataset, fit)))
    if not days:
        return f"Calculated from readings without a date.{_before_trusting(fit)}"
    span = days[0] if len(days) == 1 else f"{days[0]} to {days[-1]}"
    return f"Calculated from readings dated {span}.{_before_trusting(fit)}"


def _before_trusting(fit: PairFit) -> str:
    """Nothing where somebody has put it together already."""
    return "" if fit.strength == "dry-fitted" else " Dry-fit before trusting."


def _days(dataset: Dataset, fit: PairFit) -> Iterator[str]:
    parts = [dataset.chains[fit.chain], dataset.links[fit.link]]
    dates = [part.record.measured_on for part in parts]
    if fit.option is not None:
        clip = dataset.clips.get(fit.option.clip or "")
        seals = dataset.seals.get(fit.option.seal_set or "")
        dates += [part.record.measured_on for part in (clip, seals) if part is not None]
    yield from (date.isoformat() for date in dates if date is not None)
