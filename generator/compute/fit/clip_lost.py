"""What a joint is worth once its clip is gone, or its rivet pins were never flared.

Goes in: a dataset and the verdict on a pair.  Comes out: each makeshift with its range of rungs.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.fit.forms import Form, parse_form
from generator.compute.fit.joint import CHAIN_FIELDS, LINK_FIELDS, words_for
from generator.compute.fit.result import PairFit, Span
from generator.compute.fit.rules import applies
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.model.shipped import NO_GO, RUNGS, Band, Rule

TABLE = "clip_lost"


@dataclass(frozen=True, slots=True)
class Makeshift:
    """One way to go on without the clip; `clearance` is None where no number decides, or it is not known."""

    rule_id: str
    best: int
    worst: int
    clearance: Span | None = None


def makeshifts(dataset: Dataset, fit: PairFit) -> tuple[Makeshift, ...]:
    """Never better than the joint itself; none for a pair that is refused or no-go anyway."""
    if fit.best is None or fit.worst is None or fit.best == NO_GO:
        return ()
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    case = {"closure": link.record.closure, "plate_fit": link.record.plate_fit}
    return tuple(
        Makeshift(id_, max(best, fit.best), max(worst, fit.worst), span)
        for id_, rule in dataset.shelf.other_rules.get(TABLE, {}).items()
        if applies(rule, case)
        for best, worst, span in (_rungs(rule, chain, link),)
    )


def _rungs(rule: Rule, chain: Part[Chain], link: Part[Link]) -> tuple[int, int, Span | None]:
    if rule.clearance is None:
        rungs = [RUNGS.index(word) for word in rule.rungs["always"]]
        return min(rungs), max(rungs), None
    words = words_for(link.record.plate_fit)
    clearance = parse_form(rule.clearance, words).form
    assert clearance is not None
    span = _span(clearance, chain, link)
    if span is None:
        return min(rule.bands), NO_GO, None
    limits = [(rung, _low_limit(band, words)) for rung, band in rule.bands.items()]
    return _rung(span.high, limits), _rung(span.low, limits), span


def _low_limit(band: Band, words: dict[str, Form]) -> float:
    limit = parse_form(band.low or "0", words).form
    assert limit is not None
    return float(limit.constant)


def _rung(value: float, limits: list[tuple[int, float]]) -> int:
    return next((rung for rung, limit in limits if value >= limit), NO_GO)


def _span(form: Form, chain: Part[Chain], link: Part[Link]) -> Span | None:
    """The clearance over the readings; None where one is missing."""
    low = nominal = high = form.constant
    for symbol, coefficient in form.terms:
        known = next(_dimension(symbol, chain, link), None)
        if known is None:
            return None
        ends = (coefficient * known.low, coefficient * known.high)
        low, nominal, high = low + min(ends), nominal + coefficient * known.nominal, high + max(ends)
    return Span(float(low), float(nominal), float(high))


def _dimension(symbol: str, chain: Part[Chain], link: Part[Link]) -> Iterator[Quantity]:
    for fields, part in ((CHAIN_FIELDS, chain), (LINK_FIELDS, link)):
        if symbol in fields and fields[symbol] in part.dims:
            yield part.dims[fields[symbol]]
