"""What a dry fit showed, in words.

Goes in: a dry fit of a pair.  Comes out: sentences.
"""

from collections.abc import Iterator, Mapping

from generator.compute.fit.result import OptionFit, PairFit
from generator.compute.fit.tried import Tried
from generator.render.say.joint import SEALS_SHORT
from generator.render.say.names import listed

SEEN: Mapping[str, str] = {
    "went-together": "it went together",
    "stiff": "the joint does not bend like its neighbours",
    "plate-moves": "the pressed side plate can be moved by hand",
    "did-not-go": "it did not go together",
}
ASKED: Mapping[str, str] = {
    "enters": "do the pins enter the bushes",
    "clip_on": "does the clip go on and seat in both grooves",
    "bends": "does the joint bend like its neighbours",
}


def tried_another_way(fit: PairFit) -> tuple[str, ...]:
    """A dry fit that failed is told also where the verdict is for another way to join the pair."""
    return tuple(
        f"A dry fit failed with {way_tried(trial)} ({_dated(trial)}): {SEEN[trial.word]}. {_but(fit)}"
        for trial in fit.failed_otherwise
    )


def _but(fit: PairFit) -> str:
    if fit.option is not None and fit.option.went_together:
        return "The verdict is for another way, which was tried and went together."
    return "The verdict is for another way, which nobody has tried whole."


def failed_note(fit: PairFit) -> str:
    """The same for the cell of a table; empty where none failed."""
    ways = dict.fromkeys(way_tried(trial) for trial in fit.failed_otherwise)
    return f"a dry fit failed with {listed(list(ways))}" if ways else ""


def way_tried(trial: Tried) -> str:
    """`clip tin-3-red-own, seals in`."""
    seals = SEALS_SHORT[trial.seals]
    return f"clip {trial.clip}, {seals}" if trial.clip else seals


def what_was_tried(fit: PairFit, option: OptionFit) -> Iterator[str]:
    """What went together this way, and what was tried in part in any way."""
    whole = [trial for trial in fit.tried if trial.id in option.trials and trial.word == "went-together"]
    if whole and option.deciding != "dry-fit":
        yield f"It was tried by hand ({listed([_dated(trial) for trial in whole])}): it went together."
    for trial in fit.tried:
        if trial.open:
            asked = listed([ASKED[field] for field in trial.open])
            yield (
                f"With {way_tried(trial)} it was tried by hand in part ({_dated(trial)}): what was seen narrows the "
                f"readings. Not answered yet: {asked}?"
            )


def _dated(trial: Tried) -> str:
    return f"{trial.id}, {trial.on.isoformat()}"
