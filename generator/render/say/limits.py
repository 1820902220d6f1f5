"""The limits of a check in words, and which of them counts.

Goes in: a check.  Comes out: the edge that decides its verdict, and sentences with its numbers.
"""

from collections.abc import Iterable, Iterator

from generator.compute.fit.result import CheckFit, EdgeFit
from generator.model.shipped import RUNGS
from generator.render.say.clearances import Phrase
from generator.render.say.said import Figures, Said, joined


def edges_of_rung(check: CheckFit, rung: int) -> tuple[EdgeFit, ...]:
    """The limits a rung asks: on each side its own, or that of the stricter rung where it has none."""
    found = []
    for side in ("low", "high"):
        mine = [edge for edge in check.edges if edge.side == side and edge.rung <= rung]
        if mine:
            found.append(max(mine, key=lambda edge: edge.rung))
    return tuple(found)


def counting_edge(check: CheckFit) -> EdgeFit | None:
    """The limit between the worst verdict and the next better one; of a proper check the nearest limit."""
    asked = edges_of_rung(check, max(check.worst - 1, 0))
    known = [(edge.slack.low, edge) for edge in asked if edge.slack is not None]
    return min(known, key=lambda pair: pair[0])[1] if known else None


def numbers_of(check: CheckFit) -> Iterator[float]:
    """Every length a sentence about the check may print."""
    if check.clearance is not None:
        yield from (check.clearance.low, check.clearance.nominal, check.clearance.high)
    yield from (edge.at for edge in check.edges if edge.at is not None)


def limits_of(check: CheckFit, phrase: Phrase, rungs: Iterable[int], figures: Figures) -> Said:
    """`Proper takes 0.05 mm short or better, get-home 0.35 mm short or better.`"""
    stated = [(rung, said) for rung in rungs if (said := rung_limits(check, phrase, rung, figures))]
    sentences: list[Said] = [
        (f"{RUNGS[rung] if n else RUNGS[rung].capitalize()} takes ", *said)
        for n, (rung, said) in enumerate(stated)
    ]
    return (*joined(sentences, ", "), ".") if sentences else ()


def rung_limits(check: CheckFit, phrase: Phrase, rung: int, figures: Figures) -> Said:
    """`at least 0.50 mm`; empty where the rung sets no limit of its own, or it is not known."""
    own = [edge for edge in check.edges if edge.rung == rung]
    if not own or any(edge.at is None for edge in own):
        return ()
    at = {edge.side: edge.at for edge in edges_of_rung(check, rung)}
    low, high = at.get("low"), at.get("high")
    if low is None:
        return ("at most ", *phrase.limit(high or 0.0, figures))
    if high is None:
        return (
            ("at least ", *phrase.limit(low, figures))
            if low >= 0
            else ("up to ", *phrase.limit(low, figures))
        )
    if round(low) == -round(high):
        return ("up to ", figures.amount(high), f" {phrase.brief[0]} or {phrase.brief[1]}")
    if low < 0 <= high:
        return (*phrase.limit(low, figures), " to ", *phrase.limit(high, figures))
    return (figures.amount(low), " to ", *phrase.limit(high, figures))


def blurred_limit(check: CheckFit, figures: Figures) -> Said:
    """A limit that is itself made of readings has a width, which alone may leave the check open."""
    edge = counting_edge(check)
    if check.best == check.worst or edge is None or edge.slack is None or check.clearance is None:
        return ()
    slack, span = edge.slack, check.clearance
    if edge.side == "high":
        ends = (slack.low + span.high, slack.high + span.low)
    else:
        ends = (span.high - slack.high, span.low - slack.low)
    if edge.at is None or not round(ends[0]) < round(edge.at) < round(ends[1]):
        return ()
    return (
        "The limit rests on readings as well: it lies between ",
        figures.amount(ends[0], "low"),
        " and ",
        figures.amount(ends[1], "high"),
        ".",
    )
