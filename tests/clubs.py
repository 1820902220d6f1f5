"""Club folders for tests: records as plain values in, the text of the folder and its dataset out.

A raw club is what the files hold, `{"chains": {"blue": {"size_code": "520", ...}}, ...}`, with every value as text.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import yaml
from pydantic import BaseModel

from generator.load.files import read_club
from generator.load.folder import load_shelf
from generator.model.club import Club
from generator.model.dataset import Dataset, Shelf, TrialFacts
from generator.model.kinds import KINDS, MODELS, PART_KINDS
from generator.model.node import LoadedFolder
from generator.model.quantity import Quantity
from generator.model.record import Record
from generator.model.wear_row import WearRow
from generator.problems import Problem
from generator.validate.dataset import build_dataset, parts_of_drafts
from generator.validate.draft import draft_club
from generator.validate.shelf import build_shelf
from generator.validate.told import with_told
from generator.validate.wear_log import as_readings, wear_readings

DATA = Path(__file__).parents[1] / "data"
DAY = date(2027, 3, 1)
CLUB: Mapping[str, str] = {"name": "A club of the tests", "id": "tests", "as_of": "2027-03-01"}
KIND_OF = {KINDS[kind].stem: kind for kind in PART_KINDS}
# the models of all files a club has
CLUB_KINDS: tuple[type[BaseModel], ...] = (Club, *MODELS.values(), WearRow)
Raw = Mapping[str, Any]
R = TypeVar("R", bound=Record)


@cache
def shelf_files() -> LoadedFolder:
    return load_shelf(DATA)


@cache
def shelf() -> Shelf:
    """What ships, validated once for all tests."""
    return build_shelf(shelf_files())[0]


def texts(raw: Raw) -> dict[str, str]:
    """The files of the folder by name."""
    files = {"club": CLUB, **raw}
    return {f"{stem}.yaml": dumped(dict(records)) for stem, records in files.items()}


def dumped(records: Mapping[str, object]) -> str:
    """By the C emitter where there is one, which takes a fifth of the time."""
    return yaml.dump(records, Dumper=getattr(yaml, "CSafeDumper", yaml.SafeDumper), sort_keys=False)


def write(raw: Raw, folder: Path) -> Path:
    """The folder on disk, for what reads it from there."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in texts(raw).items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


WEAR_LOG_HEAD = "date,chain,hours,pitches,inside,outside,place,new_chain"


def loaded(raw: Raw, wear_log: str | None = None) -> LoadedFolder:
    """`wear_log` are the lines of it, without the head."""
    files = texts(raw) | ({} if wear_log is None else {"wear_log.csv": f"{WEAR_LOG_HEAD}\n{wear_log}\n"})
    return read_club({name: text.encode() for name, text in files.items()})


def errors_of(raw: Raw) -> list[Problem]:
    return [p for p in build_dataset(loaded(raw), shelf_files())[1] if p.level == "error"]


def checked(raw: Raw) -> Dataset:
    """The dataset of a club that passes the whole validation."""
    dataset, problems = build_dataset(loaded(raw), shelf_files())
    assert dataset is not None, [p for p in problems if p.level == "error"][:3]
    return replace(dataset, shelf=shelf())


def unchecked(raw: Raw, wear_log: str | None = None) -> Dataset:
    """The same for a club with parts that no shop sells, which the rules between records refuse."""
    files = loaded(raw, wear_log)
    draft, problems = draft_club(files, shelf(), DAY)
    log, log_problems = wear_readings(files, draft)
    assert not problems and not log_problems, [*problems, *log_problems][:3]
    draft = with_told(draft, log)
    assert draft.club is not None
    drafts = {kind: dict(sorted(found.items())) for kind, found in draft.kinds.items()}
    parts: dict[str, Any] = {stem: parts_of_drafts(drafts[kind]) for stem, kind in KIND_OF.items()}
    trials = {i: TrialFacts(i, d.record, d.dims) for i, d in drafts["trial"].items()}
    overrides = {i: d.record for i, d in drafts["rule"].items()}
    return Dataset(
        draft.club, DAY, "tests", "tests", shelf(), **parts, trials=trials, rides={}, overrides=overrides,
        wear_log=as_readings(log),
    )  # fmt: skip


def exactly(dataset: Dataset, flat: bool = True) -> Dataset:
    """The same club with every dimension known exactly, at its nominal: no club can read like that.  A clip whose bow is
    not said lies flat, which no folder can say either."""
    parts: dict[str, Any] = {
        stem: {i: replace(part, dims=_nominals(part.dims)) for i, part in getattr(dataset, stem).items()}
        for stem in KIND_OF
    }
    if flat:
        nothing = {"bow": Quantity(0, 0, 0)}
        clips = parts["clips"].items()
        parts["clips"] = {i: replace(clip, dims=nothing | dict(clip.dims)) for i, clip in clips}
    trials = {i: replace(trial, dims=_nominals(trial.dims)) for i, trial in dataset.trials.items()}
    return replace(dataset, **parts, trials=trials)


def _nominals(dims: Mapping[str, Quantity]) -> dict[str, Quantity]:
    return {name: replace(q, low=q.nominal, high=q.nominal) for name, q in dims.items()}
