"""What a dry fit proves: bounds on clearances, one word for what was seen, and of which options it speaks.

Goes in: a trial.  Comes out: linear forms with the interval the trial puts them in, and positions of options.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple, get_args

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.options import SEALS, Bench, Options
from generator.model.dataset import Dataset, TrialFacts
from generator.model.dry_fit import open_answers
from generator.model.trials_and_rides import Trial
from generator.rules.forms import Form, Tree, linear

NO_SEALS = ("none", "left-out")


class Seen(NamedTuple):
    """An answer of a trial and what it proves: low <= form <= high, in mm.

    `plates` and `seals` are those it proves it for, all where left out; `unread`: only where a dimension of the
    form was not read, as a reading knows better than a hand how good a fit is."""

    field: str
    value: bool
    form: str
    low: str | None = None
    high: str | None = None
    plates: tuple[str, ...] = ()
    seals: tuple[str, ...] = ()
    unread: bool = False


# common practice, no source: a clip that snaps on by hand and stays has shown its seat, mouth and spacing good, which
# thin jaws cannot read; where they were read it has shown no more than that they hold.  A pressed plate may lie
# deeper than its neighbours when the clip goes on, but not inside the bush ends.  A plate that can be moved has play.
SEEN: tuple[Seen, ...] = (
    Seen("enters", True, "d3 - d", low="0"),
    Seen("enters", False, "d3 - d", high="0"),
    Seen("clip_on", True, "gw - k", low="0"),
    Seen("clip_on", True, "stop - b2b", low="0"),
    Seen("clip_on", True, "stop - seat", low="0", plates=("press-to-shoulder",)),
    Seen("clip_on", True, "cs - gd", low="-0.30", high="0.25"),
    Seen("clip_on", True, "cs - gd", low="-0.30", high="0.10", unread=True),
    Seen("clip_on", True, "gd - cm", low="0.10"),
    Seen("clip_on", True, "gd - cm", low="0.30", unread=True),
    Seen("clip_on", True, "csp - pl", low="-0.30", high="0.30"),
    Seen("clip_on", True, "csp - pl", low="-0.15", high="0.15", unread=True),
    Seen("bends", True, "seat - b2b", low="0"),
    # seals that are in hold a sliding plate still, however much room there is for it to swim without them
    Seen("plate_moves", False, "stop - b2b", high="0.05", plates=("slip",), seals=NO_SEALS),
    Seen("plate_moves", False, "stop - b2b - 2 * w", high="0.05", plates=("slip",), seals=("packed",)),
    Seen("plate_moves", True, "stop - b2p - 2 * s", low="0.000001", plates=("slip",), seals=("fitted",)),
    Seen("plate_moves", True, "stop - b2b", low="0.000001", plates=("slip",)),
    Seen("plate_moves", True, "stop - b2b - 2 * w", low="0.000001", plates=("slip",), seals=("packed",)),
)
Where = Literal["any", "settled", "between", "clipped"]


class Read(NamedTuple):
    """The sum of some readings of a trial is this form, or bounds it on one side, where the plate lay so."""

    fields: tuple[str, ...]
    form: str
    where: Where = "any"
    low: bool = True
    high: bool = True


# a shoulder puts the plate where it always lies, and so does the rivet of a sliding plate without a clip (settled); any
# other plate lay somewhere between the bush ends and its clip, wherever the neighbours lie
READ: tuple[Read, ...] = (
    Read(("width_at_neighbour",), "b3 + 2 * tc"),
    Read(("width_at_joint",), "seat + 2 * t", "settled"),
    Read(("width_at_joint",), "b2b + 2 * t", "between", low=False),
    Read(("width_at_joint",), "stop + 2 * t", "clipped", high=False),
    Read(("tip_stand_out",), "L - t - seat", "settled"),
    Read(("tip_stand_out",), "L - t - b2b", "between", high=False),
    Read(("tip_stand_out",), "L - t - stop", "clipped", low=False),
    Read(("tip_stand_out", "width_at_joint"), "L + t"),
)
# what holds whatever the clip and the seals: pins, bushes and the neighbour link
OF_THE_PAIR = ("enters", "width_at_neighbour")
# no part has this position
NOWHERE = -2


@dataclass(frozen=True, slots=True)
class Bound:
    """One field of a trial says low <= form <= high, in nm; None is open.  `unread`: as in Seen."""

    field: str
    form: Form
    low: int | None
    high: int | None
    unread: bool = False


def pair_bounds(trial: TrialFacts, words: Mapping[str, Tree]) -> Iterator[Bound]:
    """What a trial proves about its chain and link with any clip and any seals."""
    return (bound for bound in bounds(trial, "", "", words) if bound.field in OF_THE_PAIR)


def bounds(trial: TrialFacts, plate_fit: str, closure: str, words: Mapping[str, Tree]) -> Iterator[Bound]:
    """Everything a trial proves about a link whose side plate sits as `plate_fit` says and that closes so."""
    for seen in SEEN:
        plates, seals = seen.plates or (plate_fit,), seen.seals or (trial.record.seals,)
        answered = getattr(trial.record, seen.field) is seen.value
        if answered and plate_fit in plates and trial.record.seals in seals:
            ends = (_nm(seen.low, words), _nm(seen.high, words))
            yield Bound(seen.field, linear(seen.form, words), *ends, seen.unread)
    where = _where(trial.record, plate_fit, closure)
    for read in READ:
        known = [trial.dims[field] for field in read.fields if field in trial.dims]
        if len(known) == len(read.fields) and read.where in where:
            low, high = sum(each.low for each in known), sum(each.high for each in known)
            form = linear(read.form, words)
            yield Bound(read.fields[0], form, low if read.low else None, high if read.high else None)


def _where(trial: Trial, plate_fit: str, closure: str) -> tuple[Where, ...]:
    if plate_fit == "press-to-shoulder" or (plate_fit == "slip" and closure != "clip"):
        return ("any", "settled")
    return ("any", "between", "clipped") if trial.clip_on else ("any", "between")


def _nm(text: str | None, words: Mapping[str, Tree]) -> int | None:
    return None if text is None else int(linear(text, words).constant)


def symbols_bound(vocabularies: Iterable[Mapping[str, Tree]]) -> frozenset[str]:
    """The dimensions a trial may speak of, though no rule of the case does."""
    texts = {seen.form for seen in SEEN} | {read.form for read in READ}
    return frozenset(
        name for words in vocabularies for text in texts for name, _ in linear(text, words).terms
    )


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
    at = between_positions(trial, on, options)
    own = next((link.record.clip for link in on.links if link.id == trial.link), None)
    clip_at = on.clip_at(trial.clip or own)
    found: Ints = at[options.clip[at] == clip_at]
    return found


def between_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """The options of the pair of a trial with the same between the plates, whatever their clip."""
    at = pair_positions(trial, on, options)
    found: Ints = at[np.isin(options.seals[at], _between(trial))]
    if trial.seals == "packed":
        found = found[options.seal_set[found] == _washers(trial, on)]
    return found


def _washers(trial: Trial, on: Bench) -> int:
    """Those that are named, else the only ones the club has; with several and none named nobody knows which."""
    if trial.washers is not None:
        return on.seal_at(trial.washers)
    return on.washers[0] if len(on.washers) == 1 else NOWHERE


def _between(trial: Trial) -> list[int]:
    """Seals left out and no seals are one and the same in the hand, whatever the link came with."""
    words = NO_SEALS if trial.seals in NO_SEALS else (trial.seals,)
    return [SEALS.index(word) for word in words]
