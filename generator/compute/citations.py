"""Every value and rule that ships, with its grade and source; and how many readings of the club have which grade."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from generator.model.dataset import Dataset, Shelf
from generator.model.kinds import KINDS, PART_KINDS
from generator.model.quantity import EVIDENCE_ORDER, Evidence

Group = Literal[
    "size",
    "other-size",
    "rule",
    "recipe",
    "instrument",
    "wear-limit",
    "allowance",
    "dry-fit",
    "figure",
    "finding",
    "task",
    "caution",
    "word",
]
GROUPS: tuple[Group, ...] = get_args(Group)
_CITED = re.compile(r"([^\[]+)\[(.+)\]")


@dataclass(frozen=True, slots=True)
class Citation:
    """`subject` is the record's id, `field` what of it is cited (empty: the whole record)."""

    group: Group
    subject: str
    table: str
    field: str
    value: str
    evidence: Evidence
    source: str
    place: str


def citations(shelf: Shelf) -> tuple[Citation, ...]:
    """In the order of GROUPS, then of the shelf."""
    return (
        *_sizes(shelf),
        *_other_sizes(shelf),
        *_rules(shelf),
        *_whole(shelf, "recipe", shelf.recipes),
        *_whole(shelf, "instrument", shelf.instruments),
        *_whole(shelf, "wear-limit", shelf.wear_limits),
        *_whole(shelf, "allowance", shelf.allowances),
        *_whole(shelf, "dry-fit", shelf.dry_fits),
        *_whole(shelf, "figure", shelf.care.practices),
        *_whole(shelf, "finding", shelf.care.findings),
        *_whole(shelf, "task", shelf.care.tasks),
        *_whole(shelf, "caution", shelf.cautions),
        *_whole(shelf, "word", shelf.glossary),
    )


def shares(evidence: Iterable[Evidence]) -> tuple[tuple[Evidence, int, int], ...]:
    """Evidence word, how many, and how many in a thousand, strongest word first."""
    counted = Counter(evidence)
    total = sum(counted.values())
    return tuple(
        (word, counted[word], round(1000 * counted[word] / total)) for word in EVIDENCE_ORDER if counted[word]
    )


def club_evidence(dataset: Dataset) -> Iterator[Evidence]:
    """The grade of every reading of every part; a dimension that is missing has none."""
    for kind in PART_KINDS:
        for part in getattr(dataset, KINDS[kind].stem).values():
            yield from (quantity.evidence for quantity in part.dims.values())


def cited(source: str) -> tuple[str, str]:
    """`id[place]` -> id and place."""
    match = _CITED.fullmatch(source)
    return (match[1], match[2]) if match else (source, "")


def _sizes(shelf: Shelf) -> Iterator[Citation]:
    for code, size in shelf.sizes.items():
        for field, quantity in size.dims.items():
            source, place = cited(quantity.source or "")
            yield Citation("size", code, "", field, quantity.text, quantity.evidence, source, place)


def _other_sizes(shelf: Shelf) -> Iterator[Citation]:
    for code, size in shelf.sizes.items():
        for other in size.record.other_readings:
            source, place = cited(other.source)
            yield Citation(
                "other-size", code, "", other.field, other.value.text, other.evidence, source, place
            )


def _rules(shelf: Shelf) -> Iterator[Citation]:
    tables = {"joint": shelf.joint_rules, **shelf.other_rules}
    for table, rules in tables.items():
        for id_, rule in rules.items():
            source, place = cited(rule.source)
            yield Citation("rule", id_, table, "", rule.title, rule.evidence, source, place)


def _whole(shelf: Shelf, group: Group, records: Mapping[str, object]) -> Iterator[Citation]:
    """Records that cite one source for all they say; their grade is the source's unless they say otherwise."""
    for id_, record in records.items():
        written: str | None = getattr(record, "source", None)
        if written is None:
            continue
        source, place = cited(written)
        known = shelf.sources.get(source)
        evidence: Evidence = getattr(record, "evidence", None) or (known.evidence if known else "unknown")
        title: str = getattr(record, "title", id_)
        yield Citation(group, id_, "", "", title, evidence, source, place)
