"""A verdict as a reader sees it: word, shape and its place from proper to no-go."""

from dataclasses import dataclass

from generator.model.shipped import NO_GO, RUNGS

CANNOT_JUDGE = "cannot-judge"
MEASURE_FIRST = "measure-first"


@dataclass(frozen=True, slots=True)
class ShownVerdict:
    """`word` names the shape, the ink and the place on the chain; `span` is what an open one lies between."""

    word: str
    label: str
    span: str = ""


def shown_verdict(word: str, best: int | None, worst: int | None) -> ShownVerdict:
    """Both rungs None where no verdict is given."""
    if best is None or worst is None:
        return ShownVerdict(CANNOT_JUDGE, "cannot judge")
    if word != MEASURE_FIRST:
        return ShownVerdict(word, RUNGS[best])
    return ShownVerdict(word, "measure first", range_in_words(best, worst))


def range_verdict(best: int, worst: int) -> ShownVerdict:
    """The verdict on one check or one way to join a pair."""
    return shown_verdict(RUNGS[best] if best == worst else MEASURE_FIRST, best, worst)


def range_in_words(best: int, worst: int) -> str:
    return RUNGS[best] if best == worst else f"{RUNGS[best]} to {RUNGS[worst]}"


def best_first(best: int | None, worst: int | None) -> tuple[int, int]:
    """A key to sort verdicts by: what can be trusted comes first, by the worst that is possible and then by the best;
    what cannot be judged stands between the open and the no-go."""
    if best is None or worst is None:
        return (NO_GO + 1, 0)
    return (NO_GO + 1, 1) if best == NO_GO else (worst, best)
