"""What a dry fit showed, in words."""

from collections.abc import Mapping

from generator.compute.fit.result import PairFit
from generator.compute.fit.tried import Tried
from generator.render.say.days import day_in_words
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
    "play": "have the pins more play than the neighbours'",
    "plate_on": "did the plate slide on or was it pressed",
    "clip_with": "did the clip go on with fingers or with pliers",
    "plate_moves": "can the plate be moved by hand",
    "width_at_joint": "how wide is it over the plates at the joint",
    "width_at_neighbour": "how wide is it over the neighbours' plates",
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


def tried_in_part(trial: Tried) -> str:
    """What was seen, and what nobody answered."""
    asked = listed([ASKED.get(field, field.replace("_", " ")) for field in trial.open])
    return f"Tried by hand in part with {way_tried(trial)} ({_dated(trial)}). Not answered yet: {asked}?"


def _dated(trial: Tried) -> str:
    return f"{trial.id}, {day_in_words(trial.on)}"
