"""How a verdict is known: its weakest evidence, its chances, the days of its readings.

Goes in: a dataset and a fit.  Comes out: sentences.
"""

from collections.abc import Iterator

from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from generator.model.quantity import weakest
from generator.render.words.names import listed


def evidence_sentence(dataset: Dataset, fit: PairFit) -> str:
    """Readings and limits apart, since the first can be mended with a caliper."""
    if fit.option is None:
        return ""
    rules = dataset.shelf.joint_rules
    readings = weakest(check.evidence for check in fit.option.checks if check.category is None)
    limits = weakest(rules[check.rule_id].evidence for check in fit.option.checks)
    known = (
        "Not every reading behind it is known"
        if readings == "unknown"
        else f"The weakest reading behind it is {_words(readings)}"
    )
    return f"{known}; the weakest limit it is held against is {_words(limits)}."


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
        return "Calculated from readings without a date. Dry-fit before trusting."
    span = days[0] if len(days) == 1 else f"{days[0]} to {days[-1]}"
    return f"Calculated from readings dated {span}. Dry-fit before trusting."


def _days(dataset: Dataset, fit: PairFit) -> Iterator[str]:
    parts = [dataset.chains[fit.chain], dataset.links[fit.link]]
    dates = [part.record.measured_on for part in parts]
    if fit.option is not None:
        clip = dataset.clips.get(fit.option.clip or "")
        seals = dataset.seals.get(fit.option.seal_set or "")
        dates += [part.record.measured_on for part in (clip, seals) if part is not None]
    yield from (date.isoformat() for date in dates if date is not None)
