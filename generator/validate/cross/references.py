"""Ids that name other records: they exist, they are of the right kind, and one id names one thing."""

from collections.abc import Iterator, Mapping
from typing import Any

from generator.model.chain_parts import NO_PART
from generator.model.kinds import MODELS
from generator.model.node import span_of
from generator.problems import Place, Problem
from generator.validate.draft import ClubDraft, Draft
from generator.validate.wording import nearest

# kind -> field -> the kind its id names
REFERENCES: Mapping[str, Mapping[str, str]] = {
    "chain": {"own_link": "link", "own_clip": "clip"},
    "link": {
        "clip": "clip",
        "seals": "seal",
        "clip_stop_with": "clip",
        "came_with": "chain",
        "compared_with": "link",
    },
    "strip": {"cut_from": "chain"},
    "plate": {"from_link": "link"},
    "tool": {"key": "tool"},
    "bike": {"chain": "chain", "more_joints": "link"},
    "trial": {"chain": "chain", "link": "link", "clip": "clip", "washers": "seal", "spacers": "seal"},
    "ride": {"bikes": "bike", "leader": "bike", "sweep": "bike", "van_reaches": "bike"},
}
# ids of rules are those of the shipped rules, not labels of the club
LABELLED = tuple(kind for kind in MODELS if kind != "rule")


def missing_records(club: ClubDraft) -> Iterator[Problem]:
    """Every id that names a record names one that is there, of the right kind."""
    for kind, fields in REFERENCES.items():
        for draft in club.kinds[kind].values():
            for field, target in fields.items():
                yield from _one_field(draft, field, target, club)


def _one_field(draft: Draft[Any], field: str, target: str, club: ClubDraft) -> Iterator[Problem]:
    value = getattr(draft.record, field)
    many = isinstance(value, tuple)
    for index, identity in enumerate(value if many else (value,)):
        if identity not in (None, *NO_PART) and not club.may_exist(target, identity):
            path = (field, index) if many else (field,)
            yield _missing(draft, path, identity, target, club)


def _missing(
    draft: Draft[Any], path: tuple[str | int, ...], identity: str, target: str, club: ClubDraft
) -> Problem:
    word = MODELS[target].kind_word
    steps = (draft.id, *(str(step) for step in path))
    other = next((kind for kind in LABELLED if identity in club.kinds[kind]), None)
    if other is not None:
        place = club.kinds[other][identity].place()
        message = f"'{identity}' is a {MODELS[other].kind_word}, not a {word}"
        return Problem("X302", message, draft.place(*path), steps, related=(place,))
    near = nearest(identity, sorted(club.kinds[target]))
    fix = (
        f"write {near}"
        if near
        else f"write the id of a {word} that stands in {MODELS[target].file}, or add it there"
    )
    related = (club.kinds[target][near].place(),) if near else ()
    return Problem("X301", f"there is no {word} '{identity}'", draft.place(*path), steps, fix, near, related)


def unknown_instruments(club: ClubDraft) -> Iterator[Problem]:
    """`measured_with` names an instrument of club.yaml."""
    if club.club is None:
        return
    known = sorted(club.club.instruments or {})
    for drafts in club.kinds.values():
        for draft in drafts.values():
            name = getattr(draft.record, "measured_with", None)
            if name is not None and name not in known:
                near = nearest(name, known)
                fix = f"write {near}" if near else "add it to instruments in club.yaml"
                message = f"there is no instrument '{name}' in club.yaml"
                yield draft.problem("X303", message, "measured_with", fix=fix, did_you_mean=near)


def unknown_choices_of_club(club: ClubDraft) -> Iterator[Problem]:
    """What club.yaml chooses from the shipped data is there."""
    if club.club is None:
        return
    kinds = sorted(club.shelf.instruments)
    for name, instrument in (club.club.instruments or {}).items():
        own = any(
            known is not None and not known.is_unknown
            for known in (instrument.outside, instrument.inside, instrument.depth)
        )
        path = ("instruments", name, "kind")
        if instrument.kind == "own" and not own:
            message = f"instrument '{name}' is of kind own but has no plus-minus of its own"
            fix = (
                f"add outside, inside or depth, such as outside: 0.03 mm, or write one of {', '.join(kinds)}"
            )
            yield _of_club(club, "X304", path, message, None, fix)
        elif instrument.kind not in (*kinds, "own"):
            message = f"no kind of instrument '{instrument.kind}' ships"
            fix = f"write one of {', '.join(kinds)}, or own with its plus-minus: outside, inside or depth"
            yield _of_club(club, "X304", path, message, nearest(instrument.kind, kinds), fix)
    limits = sorted(club.shelf.wear_limits)
    if club.club.wear_rule not in (None, *limits):
        message = f"no wear limit '{club.club.wear_rule}' ships"
        near = nearest(str(club.club.wear_rule), limits)
        yield _of_club(club, "X306", ("wear_rule",), message, near, f"write one of {', '.join(limits)}")


def _of_club(
    club: ClubDraft, code: str, path: tuple[str, ...], message: str, near: str | None, fix: str
) -> Problem:
    place = span_of(club.club_root, path)
    return Problem(code, message, place, path, f"write {near}" if near else fix, near)


def unknown_size_codes(club: ClubDraft) -> Iterator[Problem]:
    """A size code nobody has sizes for gets no verdict; most often it is a slip."""
    known = sorted(club.shelf.sizes)
    for drafts in club.kinds.values():
        for draft in drafts.values():
            for path, code in _size_codes(draft):
                if code not in ("unknown", *known):
                    near = nearest(code, known)
                    message = f"no sizes are known for the code '{code}'"
                    fix = "write the code as stamped, or unknown"
                    steps = (draft.id, *(str(step) for step in path))
                    yield Problem("X305", message, draft.place(*path), steps, fix, near, level="warning")


def _size_codes(draft: Draft[Any]) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Every size code of a record and the way to it."""
    code = getattr(draft.record, "size_code", None)
    if code is not None:
        yield ("size_code",), code
    for index, taken in enumerate(getattr(draft.record, "takes", None) or ()):
        yield ("takes", index), taken


def labels_used_twice(club: ClubDraft) -> Iterator[Problem]:
    """One id is one label on one bag, whatever is in it."""
    first: dict[str, Place] = {}
    for kind in LABELLED:
        for identity, draft in club.kinds[kind].items():
            place = draft.root.entries[identity].key.place
            if identity in first:
                message = f"the id '{identity}' is used a second time"
                fix = "give one of the two bags another label"
                yield Problem("C491", message, place, (identity,), fix, related=(first[identity],))
            else:
                first[identity] = place
