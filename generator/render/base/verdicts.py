"""A verdict as a reader sees it: word, shape and a place on the track from proper to no-go.

Goes in: the word and the range of rungs.  Comes out: the texts and names that the verdict macro prints.
"""

from dataclasses import dataclass

from generator.model.shipped import NO_GO, RUNGS

CANNOT_JUDGE = "cannot-judge"
MEASURE_FIRST = "measure-first"


@dataclass(frozen=True, slots=True)
class ShownVerdict:
    """`word` names the shape and the colour; `track` the range of rungs the style sheet draws, empty for none."""

    word: str
    label: str
    span: str
    track: str

    @property
    def rungs(self) -> list[str]:
        """The ends of the range, each of which stays on one line."""
        return self.span.split(" to ") if self.span else []


def shown_verdict(word: str, best: int | None, worst: int | None) -> ShownVerdict:
    """Both rungs None where no verdict is given: the track stays empty."""
    if best is None or worst is None:
        return ShownVerdict(CANNOT_JUDGE, "cannot judge", "", "")
    track = f"t{best}{worst}"
    if word != MEASURE_FIRST:
        return ShownVerdict(word, RUNGS[best], "", track)
    return ShownVerdict(word, "measure first", range_in_words(best, worst), track)


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
