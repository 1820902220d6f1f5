"""What cannot be true of the data that ship."""

from collections.abc import Iterator, Mapping

from generator.model.dataset import Shelf
from generator.model.node import Block, LoadedFolder, key_span
from generator.model.shipped import Rule
from generator.model.written import Written
from generator.problems import Problem
from generator.validate.shelf import JOINT_RULES


def shelf_problems(shelf: Shelf, files: LoadedFolder) -> Iterator[Problem]:
    """Every value of a size code says how it is known and cites where it was seen; a clearance has a limit."""
    for name in sorted(files.files):
        root = files.node(name)
        if name.startswith("sizes/"):
            yield from _ungraded(shelf, root)
    for name, rules in {JOINT_RULES: shelf.joint_rules, **_by_file(shelf)}.items():
        yield from _unlimited(files, name, rules)


def _by_file(shelf: Shelf) -> dict[str, Mapping[str, Rule]]:
    return {f"rules/{stem}.yaml": rules for stem, rules in shelf.other_rules.items()}


def _unlimited(files: LoadedFolder, name: str, rules: Mapping[str, Rule]) -> Iterator[Problem]:
    """A clearance is judged by its limits; with none of them there is nothing to judge it by."""
    for id_, rule in rules.items():
        limits = [limit for band in rule.bands.values() for limit in (band.low, band.high)]
        if rule.clearance is not None and not any(limits):
            place = key_span(files.node(name), (id_, "clearance"))
            yield Problem("U606", f"'{id_}' has a clearance, but no limit", place, (id_, "clearance"))


def _ungraded(shelf: Shelf, root: Block) -> Iterator[Problem]:
    for code in root.entries:
        entry = shelf.sizes.get(code)
        for field in type(entry.record).model_fields if entry is not None else ():
            value = getattr(entry.record, field) if entry is not None else None
            if isinstance(value, Written) and (value.evidence is None or value.source is None):
                place = key_span(root, (code, field))
                yield Problem("S704", f"{field} has no grade or no source", place, (code, field))
