"""A loaded club folder and the loaded shelf -> the dataset, or every problem found."""

from collections import Counter
from collections.abc import Mapping
from datetime import date
from typing import Any

from generator.model.dataset import Dataset, Part, Shelf, TrialFacts, WearReading
from generator.model.kinds import KINDS, MODELS, PART_KINDS
from generator.model.node import LoadedFolder
from generator.problems import Place, Problem, sorted_problems
from generator.validate.cross import cross_problems
from generator.validate.dates import settle_day
from generator.validate.draft import ClubDraft, Draft, draft_club
from generator.validate.rules import override_problems, shipped_rule_problems
from generator.validate.shelf import build_shelf
from generator.validate.told import with_told
from generator.validate.version import data_version
from generator.validate.wear_log import as_readings, wear_readings


def build_dataset(
    club_files: LoadedFolder,
    shelf_files: LoadedFolder,
    as_of: date | None = None,
    quick: bool = False,
) -> tuple[Dataset | None, tuple[Problem, ...]]:
    """The whole validation of a club; warnings do not stand in the way of a dataset.  `quick` takes what ships as
    checked, its rules as nesting, for one quick answer; what a club writes and overrides is always held to all."""
    shelf, shelf_problems = build_shelf(shelf_files)
    draft, problems = draft_club(club_files, shelf, as_of)
    log, log_problems = wear_readings(club_files, draft)
    draft = with_told(draft, log)
    day, day_source, day_problems = settle_day(draft, log, as_of)
    found = [
        *shelf_files.problems,
        *shelf_problems,
        *(() if quick else shipped_rule_problems(shelf, shelf_files)),
        *club_files.problems,
        *problems,
        *log_problems,
        *day_problems,
    ]
    found.extend(cross_problems(draft, log, club_files, None if quick else shelf_files))
    every = sorted_problems(found)
    if day is None or draft.club is None or any(problem.level == "error" for problem in every):
        return None, every
    version = data_version(club_files, shelf_files)
    dataset = _dataset(draft, shelf, as_readings(log), day, day_source, version)
    unusable = tuple(override_problems(dataset))
    return (None if unusable else dataset), sorted_problems([*every, *unusable])


def _dataset(
    draft: ClubDraft,
    shelf: Shelf,
    log: tuple[WearReading, ...],
    day: date,
    day_source: str,
    version: str,
) -> Dataset:
    assert draft.club is not None
    kinds = {kind: _sorted(draft.kinds[kind]) for kind in MODELS}
    parts: dict[str, Any] = {KINDS[kind].stem: parts_of_drafts(kinds[kind]) for kind in PART_KINDS}
    return Dataset(
        club=draft.club,
        as_of=day,
        as_of_from=day_source,
        data_version=version,
        shelf=shelf,
        **parts,
        trials={i: TrialFacts(i, d.record, d.dims) for i, d in kinds["trial"].items()},
        rides={i: d.record for i, d in kinds["ride"].items()},
        overrides={i: d.record for i, d in kinds["rule"].items()},
        wear_log=log,
        places=_places(kinds),
    )


def _sorted(drafts: Mapping[str, Draft[Any]]) -> dict[str, Draft[Any]]:
    return {identity: drafts[identity] for identity in sorted(drafts)}


def parts_of_drafts(drafts: Mapping[str, Draft[Any]]) -> dict[str, Part[Any]]:
    """The parts of one kind by id, each with what it is called among them."""
    names = {i: d.record.name or i for i, d in drafts.items()}
    short = {i: name.split(", ")[0] for i, name in names.items()}
    often = Counter(short.values())
    return {
        i: Part(
            d.kind,
            i,
            d.record,
            d.dims,
            d.compared,
            d.places,
            names[i] if often[short[i]] > 1 else short[i],
        )
        for i, d in drafts.items()
    }


def _places(kinds: Mapping[str, Mapping[str, Draft[Any]]]) -> dict[tuple[str, str], tuple[str, int]]:
    spots: dict[tuple[str, str], Place] = {
        (kind, identity): draft.root.entries[identity].key.place
        for kind, drafts in kinds.items()
        for identity, draft in drafts.items()
    }
    return {key: (place.file, place.line) for key, place in spots.items()}
