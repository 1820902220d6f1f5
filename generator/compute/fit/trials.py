"""What a dry fit proves: bounds on clearances, one word for what was seen, and of which options it speaks.

Goes in: a trial.  Comes out: linear forms with the interval the trial puts them in, and positions of options.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.forms import Form, parse_form
from generator.compute.fit.options import SEALS, Bench, Options
from generator.model.dataset import Dataset, TrialFacts
from generator.model.dry_fit import open_answers
from generator.model.quantity import Quantity
from generator.model.trials_and_rides import Trial

# (field of the trial, its value, where the plate sits or None for all, form, low, high) in mm;
# common practice, no source: a clip that snaps on by hand and stays has shown its seat, mouth and
# spacing good, which thin jaws cannot read
SEEN: tuple[tuple[str, bool, str | None, str, str | None, str | None], ...] = (
    ("enters", True, None, "d3 - d", "0", None),
    ("enters", False, None, "d3 - d", None, "0"),
    ("clip_on", True, None, "gw - k", "0", None),
    ("clip_on", True, "press", "stop - seat", "0", None),
    ("clip_on", True, "press-to-shoulder", "stop - seat", "0", None),
    ("clip_on", True, "slip", "stop - b2b", "0", None),
    ("clip_on", True, None, "cs - gd", "-0.30", "0.10"),
    ("clip_on", True, None, "gd - cm", "0.30", None),
    ("clip_on", True, None, "csp - pl", "-0.15", "0.15"),
    ("bends", True, None, "seat - b2b", "0", None),
    ("plate_moves", False, "slip", "stop - b2b", None, "0.05"),
)
# what holds whatever the clip and the seals: pins, bushes and the neighbour link
OF_THE_PAIR = ("enters", "width_at_neighbour")
# no part has this position
NOWHERE = -2
# a reading of the trial equals this form
READ: tuple[tuple[str, str], ...] = (
    ("width_at_joint", "seat + 2 * t"),
    ("width_at_neighbour", "b3 + 2 * tc"),
    ("tip_stand_out", "L - t - seat"),
)


@dataclass(frozen=True, slots=True)
class Bound:
    """One field of a trial says low <= form <= high, in nm; None is open."""

    field: str
    form: Form
    low: int | None
    high: int | None


def pair_bounds(trial: TrialFacts, words: Mapping[str, Form]) -> Iterator[Bound]:
    """What a trial proves about its chain and link with any clip and any seals."""
    return (bound for bound in bounds(trial, "", words) if bound.field in OF_THE_PAIR)


def bounds(trial: TrialFacts, plate_fit: str, words: Mapping[str, Form]) -> Iterator[Bound]:
    """Everything a trial proves about a link whose side plate sits as `plate_fit` says."""
    for field, value, only, text, low, high in SEEN:
        if getattr(trial.record, field) is value and only in (None, plate_fit):
            form = _form(text, words)
            yield Bound(field, form, _nm(low, words), _nm(high, words))
    for field, text in READ:
        read: Quantity | None = trial.dims.get(field)
        if read is not None:
            yield Bound(field, _form(text, words), read.low, read.high)


def _form(text: str, words: Mapping[str, Form]) -> Form:
    form = parse_form(text, words).form
    assert form is not None
    return form


def _nm(text: str | None, words: Mapping[str, Form]) -> int | None:
    return None if text is None else int(_form(text, words).constant)


def symbols_bound(vocabularies: Iterable[Mapping[str, Form]]) -> frozenset[str]:
    """The dimensions a trial may speak of, though no rule of the case does."""
    texts = {text for _, _, _, text, _, _ in SEEN} | {text for _, text in READ}
    return frozenset(name for words in vocabularies for text in texts for name, _ in _form(text, words).terms)


TriedWord = Literal["not-tried", "tried-in-part", "went-together", "stiff", "plate-moves", "did-not-go"]

# a later word outweighs an earlier one
TRIED: tuple[TriedWord, ...] = get_args(TriedWord)


def tried_word(trial: TrialFacts, dataset: Dataset) -> TriedWord:
    """went-together only where everything was tried and went; did-not-go where anything refused.

    A pressed plate that moves by hand has lost its press fit, whatever the clip does: the trial
    counts against the joint (common practice, no source)."""
    seen = trial.record
    if seen.enters is False or seen.clip_on is False:
        return "did-not-go"
    link = dataset.links[seen.link].record
    if seen.plate_moves and link.plate_fit != "slip":
        return "plate-moves"
    if seen.bends is False:
        return "stiff"
    return "tried-in-part" if open_answers(seen, link.closure) else "went-together"


def word_for_all(trial: TrialFacts, dataset: Dataset) -> TriedWord | None:
    """What the trial showed that no other clip and no other seals mend, or None.

    Pins that do not go into the bushes do so with nothing else on them yet, and a press fit that is lost is lost
    between pin and plate.  A clip that does not go on speaks of that clip and of what lay between the plates, and a
    joint that binds may bind on its seals: those leave the other ways open, and are told beside them."""
    seen = trial.record
    if seen.enters is False:
        return "did-not-go"
    pressed = dataset.links[seen.link].record.plate_fit != "slip"
    return "plate-moves" if seen.plate_moves and pressed else None


def pair_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """Every option of the chain and the link of a trial."""
    chain_at = next((i for i, chain in enumerate(on.chains) if chain.id == trial.chain), NOWHERE)
    link_at = next((i for i, link in enumerate(on.links) if link.id == trial.link), NOWHERE)
    return np.flatnonzero((options.chain == chain_at) & (options.link == link_at))


def trial_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """The options with the clip and the seals of a trial; without a clip named it was the link's own."""
    at = pair_positions(trial, on, options)
    own = next((link.record.clip for link in on.links if link.id == trial.link), None)
    clip_at = on.clip_at(trial.clip or own)
    same_clip, same_seals = options.clip[at] == clip_at, options.seals[at] == SEALS.index(trial.seals)
    found: Ints = at[same_clip & same_seals]
    return found
