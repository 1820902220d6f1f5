"""What a dry fit proves: bounds on clearances, one word for what was seen, and of which options it speaks."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.options import SEALS, SEATS, Bench, Options
from generator.model.dataset import Dataset, TrialFacts
from generator.model.dry_fit import open_answers
from generator.model.shipped import Felt, Where
from generator.model.trials_and_rides import Trial
from generator.rules.forms import Form, linear
from generator.rules.vocabulary import dimensions, seat_of

NO_SEALS = ("none", "left-out")


Proved = Mapping[str, Felt]
# what holds whatever the clip and the seals: pins, bushes and the neighbour link
OF_THE_PAIR = ("enters", "width_at_neighbour")
# no part has this position
NOWHERE = -2


@dataclass(frozen=True, slots=True)
class Bound:
    """One field of a trial says low <= form <= high, in nm; None is open.  The form is `times` the length itself."""

    trial: str
    field: str
    form: Form
    low: int | None
    high: int | None
    times: int = 1


@dataclass(frozen=True)
class Shifted:
    """A trial as it speaks of a clip: made with that very clip (`by` is 0 and `same`), or with another one, which
    was up to `by` nm thicker at the least (negative: thinner)."""

    trial: TrialFacts
    same: bool = True
    by: int = 0

    def __hash__(self) -> int:
        return hash((self.trial.id, self.same, self.by))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Shifted) and (self.trial.id, self.same, self.by) == (
            other.trial.id,
            other.same,
            other.by,
        )


def pair_bounds(felt: Proved, trial: TrialFacts) -> Iterator[Bound]:
    """What a trial proves about its chain and link with any clip and any seals."""
    nowhere = {"plate_fit": "press", "seat": "neighbours", "closure": "clip"}
    return (bound for bound in bounds(felt, Shifted(trial), nowhere, False) if bound.field in OF_THE_PAIR)


def bounds(felt: Proved, shifted: Shifted, case: Mapping[str, str], clip_is_new: bool) -> Iterator[Bound]:
    """Everything a trial proves about a link whose side plate sits as the case says and that closes so."""
    trial = shifted.trial
    seat = seat_of(case["plate_fit"], case["seat"], case["closure"] == "clip")
    where = _where(trial.record, seat)
    for seen in felt.values():
        if seat not in (seen.seats or (seat,)) or case.get("lies") not in (seen.lies or (case.get("lies"),)):
            continue
        if seen.reads and shifted.same and seen.where in where:
            yield from _read(seen, trial)
        elif not seen.reads and _tells(seen, shifted, clip_is_new):
            low, high = _nm(seen.low), _nm(seen.high)
            # another clip moves the stop by the difference of thickness
            if not shifted.same and low is not None and "hold" in seen.form:
                low += shifted.by
            yield Bound(trial.id, seen.field, _form(seen.form), low, high)


def _read(seen: Felt, trial: TrialFacts) -> Iterator[Bound]:
    """The sum of its readings, where all are there."""
    known = [trial.dims[field] for field in seen.reads if field in trial.dims]
    if len(known) == len(seen.reads):
        low, high = sum(each.low for each in known), sum(each.high for each in known)
        ends = (None if seen.is_at == "most" else low, None if seen.is_at == "least" else high)
        yield Bound(trial.id, seen.field, _form(seen.form), *ends, len(known) // len(set(seen.reads)))


def _tells(seen: Felt, shifted: Shifted, clip_is_new: bool) -> bool:
    record = shifted.trial.record
    return (
        getattr(record, seen.field) is seen.is_so
        and record.seals in (seen.seals or (record.seals,))
        and record.clip_with in (seen.clip_with or (record.clip_with,))
        and (shifted.same or not seen.this_clip)
        and (clip_is_new or not seen.new_clip)
    )


def _where(trial: Trial, seat: str) -> tuple[Where, ...]:
    if seat == "press-to-shoulder":
        return ("any", "shoulder")
    if seat == "tried" and trial.plate_on == "pressed":
        return ("any", "tried")
    return ("any", "between", "clipped") if trial.clip_on else ("any", "between")


@cache
def _form(text: str) -> Form:
    return linear(text, dimensions())


def _nm(text: str | None) -> int | None:
    return None if text is None else int(_form(text).constant)


def symbols_bound(felt: Proved) -> frozenset[str]:
    """The dimensions a trial may speak of, though no rule of the case does."""
    return frozenset(name for seen in felt.values() for name, _ in _form(seen.form).terms)


TriedWord = Literal[
    "not-tried",
    "tried-in-part",
    "perhaps-not",
    "stiff-with-seals",
    "went-together",
    "stiff",
    "thrown",
    "plate-moves",
    "did-not-go",
]

# a later word outweighs an earlier one: what went together this very way need not fear for what another way showed
TRIED: tuple[TriedWord, ...] = get_args(TriedWord)
FAILED = ("stiff", "thrown", "plate-moves", "did-not-go")


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
    if seen.thrown_later:
        return "thrown"
    if seen.bends is False:
        return "stiff"
    return "tried-in-part" if open_answers(seen, link.closure, link.plate_fit) else "went-together"


def word_for_all(trial: TrialFacts, dataset: Dataset) -> TriedWord | None:
    """What the trial showed that no other clip and no other seals mend, or None.

    Pins that do not go into the bushes do so with nothing else on them yet, and a press fit that is lost is lost
    between pin and plate.  A clip that does not go on speaks of that clip and of where the plate lay, and a joint that
    binds may bind on its seals: those leave some other ways open."""
    seen = trial.record
    if seen.enters is False:
        return "did-not-go"
    pressed = dataset.links[seen.link].record.plate_fit != "slip"
    return "plate-moves" if seen.plate_moves and pressed else None


def pair_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """Every option of the chain and the link of a trial; a chain may lie on the bench once for each of its bikes."""
    chains = [i for i, chain in enumerate(on.chains) if chain.id == trial.chain]
    link_at = next((i for i, link in enumerate(on.links) if link.id == trial.link), NOWHERE)
    of_link = options.link == link_at
    return np.concatenate(
        [np.flatnonzero((options.chain == at) & of_link) for at in chains] or [np.zeros(0, dtype=np.int64)]
    )


def trial_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """The options with the clip, the seals and the spacers of a trial; without a clip named it was the link's own."""
    at = between_positions(trial, on, options)
    found: Ints = at[options.clip[at] == clip_position(trial, on)]
    return found


def clip_position(trial: Trial, on: Bench) -> int:
    """Of the clip of a trial; nowhere where it was none of those recorded and the link has one of its own."""
    own = next((link.record.clip for link in on.links if link.id == trial.link), None)
    return on.clip_at(trial.clip or own)


def between_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """The options of the pair of a trial with the same between the plates and under the clip, whatever the clip."""
    at = pair_positions(trial, on, options)
    at = at[(options.spacer[at] == on.seal_at(trial.spacers)) & (options.seat[at] != SEATS.index("clip"))]
    found: Ints = at
    if trial.seals == "unknown":
        return found
    found = at[np.isin(options.seals[at], [SEALS.index(word) for word in same_between(trial.seals)])]
    if trial.seals == "packed":
        found = found[options.seal_set[found] == _washers(trial, on)]
    return found


def _washers(trial: Trial, on: Bench) -> int:
    """Those that are named, else the only ones the club has; with several and none named nobody knows which."""
    if trial.washers is not None:
        return on.seal_at(trial.washers)
    return on.washers[0] if len(on.washers) == 1 else NOWHERE


def same_between(seals: str) -> tuple[str, ...]:
    """Seals left out and no seals are one and the same in the hand, whatever the link came with."""
    return NO_SEALS if seals in NO_SEALS else (seals,)
