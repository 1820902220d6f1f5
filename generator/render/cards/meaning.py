"""What the verdicts allow: the card that explains the others."""

from collections.abc import Iterator

from generator.model.shipped import NO_GO, RUNGS
from generator.render.cards.card import Block, CardSet, Fit, Run, Says, Section, bold, plain
from generator.render.cards.code import code
from generator.render.cards.desk import Desk
from generator.render.cards.words import cautions, plate
from generator.render.say.rungs import MEANINGS, NO_SOURCE

PAGE = "safety/"


def meaning_set(desk: Desk) -> CardSet:
    return CardSet(
        "meaning",
        "verdicts",
        (bold("Verdicts"),),
        "What the verdicts mean",
        PAGE,
        (
            Section(
                "what they allow",
                (
                    *_blocks(),
                    *cautions(desk.dataset, "get-home-riding", "manual-first"),
                    *code(desk.site, PAGE),
                ),
            ),
        ),
    )


def _blocks() -> Iterator[Block]:
    """The four rungs, then what is not settled."""
    for rung, word in enumerate(RUNGS):
        yield Fit(plate(rung, rung), (plain(MEANINGS[word]),))
    yield Fit(
        plate(0, NO_GO),
        (
            plain(
                "Not measured or tried closely enough. The outline is the worst it could be: do not count on it."
            ),
        ),
    )
    yield Fit(
        plate(None, None),
        (plain("No verdict can be given from what is written down. Look at it; do not count on it."),),
    )
    yield Says(
        (
            bold("Proper by numbers or by make"),
            *plain(" counts as get-home until somebody has dry-fitted it. "),
            Run(NO_SOURCE),
        )
    )
