"""What dry fits say of one way to join a pair, reckoned one way and one trial at a time."""

from typing import Protocol

from generator.model.dataset import Dataset, TrialFacts

# what was seen, better first
TRIED = (
    "not-tried", "tried-in-part", "perhaps-not", "stiff-with-seals", "went-together", "stiff", "thrown", "plate-moves",
    "did-not-go",
)  # fmt: skip
BARE = ("none", "left-out")


class Way(Protocol):
    @property
    def chain(self) -> str: ...
    @property
    def link(self) -> str: ...
    @property
    def clip(self) -> str | None: ...
    @property
    def seals(self) -> str: ...
    @property
    def seal_set(self) -> str | None: ...
    @property
    def seat(self) -> str: ...
    @property
    def spacer(self) -> str | None: ...


def tried(dataset: Dataset, way: Way) -> str:
    found = ["not-tried"]
    for trial in dataset.trials.values():
        if (trial.record.chain, trial.record.link) == (way.chain, way.link):
            found += _said(dataset, way, trial)
    return max(found, key=TRIED.index)


def _said(dataset: Dataset, way: Way, trial: TrialFacts) -> list[str]:
    seen, link = trial.record, dataset.links[way.link].record
    pressed = link.plate_fit != "slip"
    found = []
    if seen.enters is False:
        found.append("did-not-go")
    if seen.plate_moves and pressed:
        found.append("plate-moves")
    between = _same_between(dataset, way, trial) and way.spacer == seen.spacers and way.seat != "clip"
    own = link.clip if link.clip not in (None, "none", "unknown") else None
    clip = seen.clip or own
    if between and clip == way.clip:
        found.append(_word(trial, link.closure, link.plate_fit))
    for_trials = seen.clip is not None and dataset.clips[seen.clip].record.for_trials
    if (
        between
        and for_trials
        and way.clip == own
        and _word(trial, link.closure, link.plate_fit) == "went-together"
    ):
        found.append("went-together")
    if seen.clip_on is False and way.seat != "clip" and (link.plate_fit == "press" or between):
        found.append(
            {"as-thick": "did-not-go", "perhaps": "perhaps-not", "thinner": "not-tried"}[
                _thick(dataset, clip, way.clip)
            ]
        )
    if seen.bends is False:
        if between:
            found.append("stiff")
        if seen.seals not in BARE and way.seals != "fitted":
            found.append("stiff-with-seals")
    return found


def _same_between(dataset: Dataset, way: Way, trial: TrialFacts) -> bool:
    seen = trial.record
    if seen.seals == "unknown":
        return True
    if seen.seals != "packed":
        return way.seals == seen.seals or (way.seals in BARE and seen.seals in BARE)
    washers = [i for i, s in dataset.seals.items() if s.record.shape == "washer" and s.record.count > 0]
    named = seen.washers or (washers[0] if len(washers) == 1 else None)
    return way.seals == "packed" and named is not None and way.seal_set == named


def _word(trial: TrialFacts, closure: str, plate_fit: str) -> str:
    seen = trial.record
    if seen.enters is False or seen.clip_on is False:
        return "did-not-go"
    if seen.plate_moves and plate_fit != "slip":
        return "plate-moves"
    if seen.thrown_later:
        return "thrown"
    if seen.bends is False:
        return "stiff"
    looked = seen.plates_level is not None or ("width_at_joint" in trial.dims and "width_at_neighbour" in trial.dims) or (
        sum("gap" in name for name in trial.dims) == 4
    )  # fmt: skip
    whole = (
        seen.enters and seen.bends and (seen.clip_on or closure != "clip") and seen.seals != "unknown"
        and (plate_fit == "slip" or seen.plate_on == "pressed") and (plate_fit != "press" or looked)
    )  # fmt: skip
    return "went-together" if whole else "tried-in-part"


def _thick(dataset: Dataset, used: str | None, clip: str | None) -> str:
    if used == clip:
        return "as-thick"
    before, after = (_ends(dataset, id_) for id_ in (used, clip))
    if before is None or after is None:
        return "perhaps"
    return "as-thick" if after[0] >= before[1] else "thinner" if after[1] < before[0] else "perhaps"


def _ends(dataset: Dataset, id_: str | None) -> tuple[int, int] | None:
    """Thinnest place to what it was when new: at most twice what is left where that is not known."""
    clip = dataset.clips.get(id_ or "")
    if clip is None or "thickness" not in clip.dims:
        return None
    thin, new = clip.dims["thickness"], clip.dims.get("thickness_new")
    if new is not None:
        return thin.low, max(new.high, thin.low)
    fresh = clip.record.history in ("new", "never-off")
    return thin.low, thin.high if fresh else 2 * thin.high
