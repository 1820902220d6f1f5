"""Cautions as a page prints them, with the signal word their harm and likelihood give."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from generator.compute.fit.result import PairFit
from generator.model.shipped import NO_GO, Caution

Signal = Literal["danger", "warning", "caution", "notice"]


@dataclass(frozen=True, slots=True)
class ShownCaution:
    """Signal word, hazard, what it does, how to avoid it."""

    id: str
    signal: Signal
    title: str
    hazard: str
    consequence: str
    avoid: str


@dataclass(frozen=True, slots=True)
class ShortCaution:
    """One line that stands before the step itself; the cautions in full stand at the end of the page."""

    signal: Signal
    says: str


def shown_caution(id_: str, caution: Caution) -> ShownCaution:
    return ShownCaution(
        id_, signal_word(caution), caution.title, caution.hazard, caution.consequence, caution.avoid
    )


def signal_word(caution: Caution) -> Signal:
    """After the practice of ANSI Z535.6: danger only where death or serious harm will follow."""
    if caution.harm == "damage":
        return "notice"
    if caution.harm == "minor-or-moderate":
        return "caution"
    return "danger" if caution.likelihood == "will" else "warning"


def pair_cautions(cautions: Mapping[str, Caution], fit: PairFit, plate_fit: str) -> tuple[ShownCaution, ...]:
    """Those that guard the next step with this pair, and the one that stands over all of them."""
    return tuple(shown_caution(id_, cautions[id_]) for id_ in _wanted(fit, plate_fit) if id_ in cautions)


def _wanted(fit: PairFit, plate_fit: str) -> Iterable[str]:
    if fit.best == NO_GO:
        yield "locking-wheel"
    else:
        yield "engine-off"
        if plate_fit != "slip":
            yield "over-pressing"
        if fit.option is None or fit.option.closure == "clip":
            yield "clip-direction"
        if fit.worst is None or fit.worst >= 1:
            yield "get-home-riding"
    yield "manual-first"
