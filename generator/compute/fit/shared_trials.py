"""What dry fits say of ways to join a pair that nobody tried: those that share all the parts that were seen to fail."""

from collections.abc import Iterator

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.evaluate import Category
from generator.compute.fit.options import NOTHING, SEALS, SEATS, Bench, Options
from generator.compute.fit.trials import (
    NO_SEALS,
    TRIED,
    TriedWord,
    between_positions,
    clip_position,
    pair_positions,
    trial_positions,
    tried_word,
    word_for_all,
)
from generator.model.chain_parts import Clip
from generator.model.dataset import Dataset, Part, Shelf, TrialFacts
from generator.rules.stack import stacked


def tried_words(dataset: Dataset, on: Bench, options: Options) -> Category:
    """The gravest that was seen of each option."""
    codes = np.zeros(len(options), dtype=np.int8)
    for trial in dataset.trials.values():
        for word, at in _said(trial, dataset, on, options):
            codes[at] = np.maximum(codes[at], TRIED.index(word))
    return Category(codes, TRIED)


def _said(
    trial: TrialFacts, dataset: Dataset, on: Bench, options: Options
) -> Iterator[tuple[TriedWord, Ints]]:
    own = tried_word(trial, dataset)
    yield _on_seals(trial, own), trial_positions(trial.record, on, options)
    yield _inherited(trial, own), inheriting(trial, dataset, on, options)
    for_all = word_for_all(trial, dataset)
    if for_all is not None:
        yield for_all, pair_positions(trial.record, on, options)
    if trial.record.clip_on is False:
        yield from _clip_would_not(trial, dataset.shelf, on, options)
    if trial.record.bends is False:
        yield "stiff", between_positions(trial.record, on, options)
        yield from _stiff_with_seals(trial, on, options)


def _on_seals(trial: TrialFacts, word: TriedWord) -> TriedWord:
    """Nobody knows which way went together; that it did not go is true of whichever it was."""
    return "tried-in-part" if word == "went-together" and trial.record.seals == "unknown" else word


def _inherited(trial: TrialFacts, word: TriedWord) -> TriedWord:
    """Of another clip it is only good news that carries over; bad news does where the parts are shared."""
    return _on_seals(trial, word) if word == "went-together" else "not-tried"


def inheriting(trial: TrialFacts, dataset: Dataset, on: Bench, options: Options) -> Ints:
    """The options with the link's own clip where the trial was made with one kept for trials."""
    used = on.clip_at(trial.record.clip)
    none = np.zeros(0, dtype=np.int64)
    if used == NOTHING or not on.clips[used].record.for_trials:
        return none
    at = between_positions(trial.record, on, options)
    own = on.clip_at(dataset.links[trial.record.link].record.clip)
    found: Ints = at[options.clip[at] == own]
    return found


def shift_of(trial: TrialFacts, shelf: Shelf, on: Bench, clip: int) -> int:
    """So much thicker the clip of the trial was at the least than this one, in nm."""
    used = on.clip_at(trial.record.clip)
    before = stacked(on.clips[used], shelf) if used != NOTHING else None
    after = stacked(on.clips[clip], shelf) if clip != NOTHING else None
    if before is None or after is None:
        return -shelf.allowances["packet-alike"].nm
    return before.low - after.high


def _clip_would_not(
    trial: TrialFacts, shelf: Shelf, on: Bench, options: Options
) -> Iterator[tuple[TriedWord, Ints]]:
    """Of link, plate, where the plate lay, and that clip or a thicker one."""
    at = pair_positions(trial.record, on, options)
    at = at[options.seat[at] != SEATS.index("clip")]
    if len(at) and options.seat[at[0]] == SEATS.index("made"):
        # where a plate slides on, what lies between decides how far it comes
        at = between_positions(trial.record, on, options)
    used = clip_position(trial.record, on)
    kinds = np.array(
        [_thickness_word(shelf, on, used, clip) for clip in options.clip[at].tolist()], dtype=object
    )
    yield "did-not-go", at[kinds == "as-thick"]
    yield "perhaps-not", at[kinds == "perhaps"]


def _thickness_word(shelf: Shelf, on: Bench, used: int, clip: int) -> str:
    if clip == used:
        return "as-thick"
    before, after = (_thick(shelf, on, each) for each in (used, clip))
    if before is None or after is None:
        return "perhaps"
    if after[0] >= before[1]:
        return "as-thick"
    return "thinner" if after[1] < before[0] else "perhaps"


def _thick(shelf: Shelf, on: Bench, clip: int) -> tuple[int, int] | None:
    part: Part[Clip] | None = on.clips[clip] if clip >= 0 else None
    found = stacked(part, shelf) if part is not None else None
    return None if found is None else (found.low, found.high)


def _stiff_with_seals(trial: TrialFacts, on: Bench, options: Options) -> Iterator[tuple[TriedWord, Ints]]:
    """It may have bound on its seals, or not: without them it is not trusted until it is tried."""
    if trial.record.seals in NO_SEALS:
        return
    at = pair_positions(trial.record, on, options)
    without = [SEALS.index(word) for word in (*NO_SEALS, "packed")]
    yield "stiff-with-seals", at[np.isin(options.seals[at], without)]
