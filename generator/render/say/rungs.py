"""What each verdict means for a rider: common practice, no source, and printed as such."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.model.shipped import RUNGS
from generator.render.base.verdicts import (
    CANNOT_JUDGE,
    MEASURE_FIRST,
    ShownVerdict,
    range_in_words,
    shown_verdict,
)

NO_SOURCE = "Common practice, no source."

MEANINGS = {
    "proper": "It goes together as designed. Check it as usual.",
    "get-home": (
        "Same day only, by the easiest way out: not above 30 km/h and on no faster road, no passenger, smooth "
        "throttle, nobody close behind. Look at it after 1 km, after 5 km, then every 5 km. "
        "Replace it before the next ride."
    ),
    "last-resort": (
        "Only where you cannot be fetched or towed: walking pace, check it every 500 m, stop if it moves. "
        "On a public road push."
    ),
    "no-go": "Do not fit it: it can lock the wheel or hole the engine.",
    MEASURE_FIRST: (
        "Not a verdict yet. What is known leaves several open; the one measurement that would settle it is named. "
        "Until then treat it as the worst of them."
    ),
    CANNOT_JUDGE: (
        "No verdict can be given from what is written down. Look at it with your own eyes and do not count on it."
    ),
}

NOT_SETTLED = "not-settled"  # measure-first and cannot-judge together, as a section of a page

# how a fit is proper that nobody has tried, by its strength
BY: Mapping[str, str] = {"by-numbers": "by numbers", "by-make": "by make"}
UNTRIED: Mapping[str, str] = {"by-numbers": "By numbers only", "by-make": "By make, not tried"}


@dataclass(frozen=True, slots=True)
class KeyLine:
    """One line of the key to the verdicts."""

    verdict: ShownVerdict
    meaning: str


def verdict_key() -> tuple[KeyLine, ...]:
    """The four rungs, and the two answers that are not rungs."""
    rungs = [KeyLine(shown_verdict(word, rung, rung), MEANINGS[word]) for rung, word in enumerate(RUNGS)]
    return (
        *rungs,
        KeyLine(
            ShownVerdict(MEASURE_FIRST, "measure first", "from one to another"),
            MEANINGS[MEASURE_FIRST],
        ),
        KeyLine(shown_verdict(CANNOT_JUDGE, None, None), MEANINGS[CANNOT_JUDGE]),
    )


def not_tested(worst: int) -> str:
    """How a verdict that is still open counts on a ride."""
    return f"not tested: could be {RUNGS[worst]}; do not count on it"


def meaning(word: str, best: int | None, worst: int | None) -> str:
    """What the verdict on one pair means; of an open one, what is open."""
    if word != MEASURE_FIRST or best is None or worst is None:
        return MEANINGS[word]
    return (
        f"Not a verdict yet: what is known leaves {range_in_words(best, worst)} open. "
        f"What to measure is said below. Until then treat it as {RUNGS[worst]}."
    )
