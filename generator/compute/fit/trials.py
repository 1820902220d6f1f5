"""What a dry fit proves: bounds on clearances, one word for what was seen, and of which options it speaks."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal, NamedTuple, get_args

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.options import SEALS, SEATS, Bench, Options
from generator.model.dataset import Dataset, TrialFacts
from generator.model.dry_fit import open_answers
from generator.model.trials_and_rides import Trial
from generator.rules.forms import Form, linear
from generator.rules.vocabulary import dimensions, seat_of

NO_SEALS = ("none", "left-out")


class Seen(NamedTuple):
    """An answer of a trial and what it proves: low <= form <= high, in mm.

    `seats` are the ways a plate sits, `seals` what lies between, `with_` how the clip went on, for which it proves it;
    all where left out.  `clip` says that it is about this very clip, `new` that it must be new."""

    field: str
    value: bool
    form: str
    low: str | None = None
    high: str | None = None
    seats: tuple[str, ...] = ()
    seals: tuple[str, ...] = ()
    clip: bool = False
    with_: tuple[str, ...] = ()
    new: bool = False


# common practice, no source: no more than the hand felt.  A clip that snapped home and that the thumb cannot push off
# has a mouth well under the groove; one that went on with the fingers has only shown that it holds.  A pressed plate
# may lie deeper than its neighbours when the clip goes on, but not inside the bush ends.  A plate that can be moved
# has play.
SEEN: tuple[Seen, ...] = (
    Seen("enters", True, "d3 - d", low="0"),
    Seen("enters", False, "d3 - d", high="0"),
    Seen("clip_on", True, "gw - ks", low="0", clip=True),
    Seen("clip_on", True, "gd - cm", low="0.000001", clip=True),
    Seen("clip_on", True, "gd - cm", low="0.10", clip=True, with_=("pliers",)),
    Seen("clip_on", True, "gd - cm", low="0.30", clip=True, with_=("pliers",), new=True),
    Seen("clip_on", True, "hold - t - ws - b2b", low="0"),
    Seen("clip_on", True, "hold - t - ws - M", low="0", seats=("press-to-shoulder",)),
    Seen("clip_on", True, "hold - t - ws - b3 - place", low="0", seats=("tried",)),
    Seen("bends", True, "hold - t - ws - b2b", low="0", seats=("slip",), clip=True),
    Seen("bends", True, "M - b2b", low="0", seats=("press-to-shoulder",)),
    Seen("bends", True, "b3 + place - b2b", low="0", seats=("tried",)),
    # seals that are in hold a sliding plate still, however much room there is for it to swim without them
    Seen("plate_moves", False, "hold - t - b2b", high="0.05", seats=("slip",), seals=NO_SEALS, clip=True),
    Seen(
        "plate_moves",
        False,
        "hold - t - b2b - 2 * w",
        high="0.05",
        seats=("slip",),
        seals=("packed",),
        clip=True,
    ),
    Seen(
        "plate_moves",
        True,
        "hold - t - b2p - 2 * s",
        low="0.000001",
        seats=("slip",),
        seals=("fitted",),
        clip=True,
    ),
    Seen("plate_moves", True, "hold - t - b2b", low="0.000001", seats=("slip",), clip=True),
    Seen(
        "plate_moves",
        True,
        "hold - t - b2b - 2 * w",
        low="0.000001",
        seats=("slip",),
        seals=("packed",),
        clip=True,
    ),
)
Where = Literal["any", "shoulder", "tried", "between", "clipped"]


class Read(NamedTuple):
    """The sum of some readings of a trial is this form, or bounds it on one side, where the plate lay so."""

    fields: tuple[str, ...]
    form: str
    where: Where = "any"
    low: bool = True
    high: bool = True


# a shoulder puts the plate where it always lies, and what was pressed was seen to lie there; any other plate lay
# somewhere between the bush ends and its clip, wherever the neighbours lie
READ: tuple[Read, ...] = (
    Read(("width_at_neighbour",), "b3 + 2 * tc"),
    Read(("width_at_joint",), "M + t + f", "shoulder"),
    Read(("width_at_joint",), "b2b + t + f", "between", low=False),
    Read(("width_at_joint",), "hold - ws + f", "clipped", high=False),
    Read(("tip_stand_out",), "L - t - M", "shoulder"),
    Read(("tip_stand_out",), "L - t - b3 - place", "tried"),
    Read(("tip_stand_out",), "L - t - b2b", "between", high=False),
    Read(("tip_stand_out",), "L - hold + ws", "clipped", low=False),
    Read(("tip_stand_out", "width_at_joint"), "L + f"),
)
# what holds whatever the clip and the seals: pins, bushes and the neighbour link
OF_THE_PAIR = ("enters", "width_at_neighbour")
# no part has this position
NOWHERE = -2


@dataclass(frozen=True, slots=True)
class Bound:
    """One field of a trial says low <= form <= high, in nm; None is open."""

    trial: str
    field: str
    form: Form
    low: int | None
    high: int | None


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


def pair_bounds(trial: TrialFacts) -> Iterator[Bound]:
    """What a trial proves about its chain and link with any clip and any seals."""
    nowhere = {"plate_fit": "press", "seat": "neighbours", "closure": "clip"}
    return (bound for bound in bounds(Shifted(trial), nowhere, False) if bound.field in OF_THE_PAIR)


def bounds(shifted: Shifted, case: Mapping[str, str], clip_is_new: bool) -> Iterator[Bound]:
    """Everything a trial proves about a link whose side plate sits as the case says and that closes so."""
    trial = shifted.trial
    seat = seat_of(case["plate_fit"], case["seat"], case["closure"] == "clip")
    for seen in SEEN:
        if _tells(seen, shifted, seat, clip_is_new):
            low, high = _nm(seen.low), _nm(seen.high)
            form = _form(seen.form)
            # another clip moves the stop by the difference of thickness
            if not shifted.same and low is not None and "hold" in seen.form:
                low += shifted.by
            yield Bound(trial.id, seen.field, form, low, high)
    where = _where(trial.record, seat)
    for read in READ if shifted.same else ():
        known = [trial.dims[field] for field in read.fields if field in trial.dims]
        if len(known) == len(read.fields) and read.where in where:
            low, high = sum(each.low for each in known), sum(each.high for each in known)
            form = _form(read.form)
            yield Bound(
                trial.id, read.fields[0], form, low if read.low else None, high if read.high else None
            )


def _tells(seen: Seen, shifted: Shifted, seat: str, clip_is_new: bool) -> bool:
    record = shifted.trial.record
    return (
        getattr(record, seen.field) is seen.value
        and seat in (seen.seats or (seat,))
        and record.seals in (seen.seals or (record.seals,))
        and record.clip_with in (seen.with_ or (record.clip_with,))
        and (shifted.same or not seen.clip)
        and (clip_is_new or not seen.new)
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


def symbols_bound() -> frozenset[str]:
    """The dimensions a trial may speak of, though no rule of the case does."""
    texts = {seen.form for seen in SEEN} | {read.form for read in READ}
    return frozenset(name for text in texts for name, _ in _form(text).terms)


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
    """Every option of the chain and the link of a trial."""
    chain_at = next((i for i, chain in enumerate(on.chains) if chain.id == trial.chain), NOWHERE)
    link_at = next((i for i, link in enumerate(on.links) if link.id == trial.link), NOWHERE)
    return np.flatnonzero((options.chain == chain_at) & (options.link == link_at))


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
