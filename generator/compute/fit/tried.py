"""Every dry fit of a pair, whichever way it was joined, and what came of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from generator.compute.fit.trials import FAILED, TriedWord, tried_word
from generator.model.dataset import Dataset
from generator.model.dry_fit import open_answers


@dataclass(frozen=True, slots=True)
class Tried:
    """One dry fit; `open` are the answers it leaves out."""

    id: str
    on: date
    clip: str | None
    seals: str
    word: TriedWord
    open: tuple[str, ...] = ()

    @property
    def failed(self) -> bool:
        return self.word in FAILED


def tried_by_pair(dataset: Dataset) -> Mapping[tuple[str, str], tuple[Tried, ...]]:
    """Without a clip named it was the link's own."""
    found: dict[tuple[str, str], list[Tried]] = {}
    for trial in sorted(dataset.trials.values(), key=lambda trial: (trial.record.on, trial.id)):
        seen, link = trial.record, dataset.links[trial.record.link].record
        word = tried_word(trial, dataset)
        left = open_answers(seen, link.closure, link.plate_fit) if word == "tried-in-part" else ()
        tried = Tried(trial.id, seen.on, seen.clip or link.clip, seen.seals, word, left)
        found.setdefault((seen.chain, seen.link), []).append(tried)
    return {pair: tuple(trials) for pair, trials in found.items()}
