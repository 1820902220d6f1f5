"""A club on its way to a dataset: every record that parsed, whole or in part, with its place."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Generic, TypeVar

from pydantic import BaseModel

from generator.model.club import Club, Instrument
from generator.model.dataset import Shelf
from generator.model.kinds import MODELS
from generator.model.node import Block, LoadedFolder, span_of
from generator.model.quantity import Quantity
from generator.model.record import Record
from generator.problems import Level, Place, Problem
from generator.validate.measure import measure_record, places_of
from generator.validate.shape import shape_file, shape_record

M = TypeVar("M", bound=BaseModel, covariant=True)


@dataclass(frozen=True, slots=True)
class Draft(Generic[M]):
    """One record that parsed at least in part; a required field that did not is None."""

    kind: str
    id: str
    record: M
    whole: bool
    dims: Mapping[str, Quantity]
    root: Block
    compared: Mapping[str, Quantity] = field(default_factory=dict)
    places: Mapping[str, Quantity] = field(default_factory=dict)

    def place(self, *path: str | int) -> Place:
        return span_of(self.root, (self.id, *path))

    def has(self, field: str) -> bool:
        """Did the author write this field?"""
        node = self.root.entries[self.id].value
        return isinstance(node, Block) and field in node.entries

    def problem(
        self,
        code: str,
        message: str,
        *path: str,
        fix: str = "",
        level: Level = "error",
        related: tuple[Place, ...] = (),
        did_you_mean: str | None = None,
    ) -> Problem:
        """A problem at a field of this record."""
        return Problem(code, message, self.place(*path), (self.id, *path), fix, did_you_mean, related, level)


@dataclass(frozen=True, slots=True)
class ClubDraft:
    """All records of a club by kind and id; `unread` are kinds whose file could not be read."""

    club: Club | None
    club_root: Block
    kinds: Mapping[str, Mapping[str, Draft[Any]]]
    refused: Mapping[str, frozenset[str]]
    unread: frozenset[str]
    shelf: Shelf
    as_of: date | None

    def find(self, kind: str, identity: str | None) -> Draft[Any] | None:
        """The record an id names, if it parsed."""
        return self.kinds[kind].get(identity) if identity is not None else None

    def may_exist(self, kind: str, identity: str) -> bool:
        """Is there such a record, or could there be one in what was not read?"""
        known = identity in self.kinds[kind] or identity in self.refused[kind]
        return known or kind in self.unread


def draft_club(folder: LoadedFolder, shelf: Shelf, as_of: date | None) -> tuple[ClubDraft, list[Problem]]:
    """Every record of the folder, and the problems of their shape."""
    root = folder.node(Club.file)
    shaped, problems = (None, []) if folder.is_broken(Club.file) else shape_record(root, (), Club)
    if Club.file not in folder.files:
        shaped, problems = None, []
    club = shaped.record if shaped is not None else None
    instruments = (club.instruments or {}) if club is not None else {}
    kinds: dict[str, Mapping[str, Draft[Any]]] = {}
    for kind, model in MODELS.items():
        kinds[kind], faults = _drafts(kind, model, folder.node(model.file), instruments, shelf)
        problems.extend(faults)
    refused = {kind: _refused(folder.node(model.file), kinds[kind]) for kind, model in MODELS.items()}
    unread = frozenset(kind for kind, model in MODELS.items() if folder.is_broken(model.file))
    day = as_of or (club.as_of if club is not None else None)
    return ClubDraft(club, root, kinds, refused, unread, shelf, day), problems


def _drafts(
    kind: str, model: type[Record], root: Block, instruments: Mapping[str, Instrument], shelf: Shelf
) -> tuple[dict[str, Draft[Any]], list[Problem]]:
    shaped, problems = shape_file(root, model)
    drafts = {
        identity: Draft(
            kind,
            identity,
            one.record,
            one.whole,
            measure_record(kind, one.record, instruments, shelf),
            root,
            places=places_of(kind, one.record, instruments, shelf),
        )
        for identity, one in shaped.items()
    }
    return drafts, problems


def _refused(root: Block, drafts: Mapping[str, Draft[Any]]) -> frozenset[str]:
    """Ids that stand in the file without a usable record."""
    return root.broken | frozenset(key for key in root.entries if key not in drafts)
