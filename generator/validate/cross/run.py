"""Every rule over every record, in three rounds: single values, single records, records together.

A value one round calls an error is taken as not known in the next, so that one slip is one problem.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from generator.model.node import LoadedFolder
from generator.problems import Place, Problem
from generator.validate.cross import (
    bikes,
    chains,
    dry_fits,
    groups,
    in_use,
    joints,
    links,
    small_parts,
    told,
    trials,
    tried_ways,
)
from generator.validate.cross.compare import ClubRule, OwnRule
from generator.validate.cross.read_with import readings_no_such_instrument_gives
from generator.validate.cross.references import (
    labels_used_twice,
    missing_records,
    unknown_choices_of_club,
    unknown_instruments,
    unknown_size_codes,
)
from generator.validate.cross.shelf_rules import shelf_problems
from generator.validate.cross.sources import source_problems
from generator.validate.cross.values import value_problems
from generator.validate.cross.wear import wear_problems
from generator.validate.draft import ClubDraft, Draft
from generator.validate.wear_log import LoggedRow

OWN_RULES: Mapping[str, Sequence[OwnRule]] = {
    "chain": (*chains.CHAIN_RULES, *in_use.CHAIN_USE_RULES, told.seals_on_a_plain_looking_chain),
    "link": (*links.LINK_RULES, *in_use.LINK_USE_RULES, told.nothing_compared),
    "clip": small_parts.CLIP_RULES,
    "seal": small_parts.SEAL_RULES,
    "strip": (*chains.STRIP_RULES, *small_parts.STRIP_COUNT_RULES),
    "tool": small_parts.TOOL_RULES,
    "bike": bikes.BIKE_RULES,
    "trial": (*trials.TRIAL_RULES, *dry_fits.DRY_FIT_RULES, in_use.left_what_did_not_go),
    "ride": groups.RIDE_RULES,
}
CLUB_RULES: Mapping[str, Sequence[ClubRule]] = {
    "chain": (*joints.CHAIN_CLUB_RULES, *groups.CHAIN_BIKE_RULES, *in_use.CHAIN_USE_CLUB_RULES),
    "link": (
        *joints.LINK_CLUB_RULES,
        *links.LINK_WEAR_RULES,
        *in_use.LINK_USE_CLUB_RULES,
        told.held_against_itself,
    ),
    "plate": joints.PLATE_CLUB_RULES,
    "strip": joints.STRIP_CLUB_RULES,
    "tool": groups.TOOL_CLUB_RULES,
    "bike": bikes.BIKE_CLUB_RULES,
    "trial": (*trials.TRIAL_CLUB_RULES, *dry_fits.DRY_FIT_CLUB_RULES, tried_ways.way_not_there),
    "rule": groups.OVERRIDE_CLUB_RULES,
}

WHOLE_CLUB_RULES: Sequence[Callable[[ClubDraft], Iterator[Problem]]] = (
    missing_records,
    unknown_instruments,
    unknown_choices_of_club,
    unknown_size_codes,
    readings_no_such_instrument_gives,
    labels_used_twice,
    trials.trials_disagree,
    told.compared_with_nothing,
)


def cross_problems(
    draft: ClubDraft, log: Sequence[LoggedRow], club: LoadedFolder, shelf: LoadedFolder | None
) -> Iterator[Problem]:
    """All rules; each looks only at what parsed.  No shelf is asked where what ships is taken as checked."""
    found = list(value_problems(draft))
    sound = _without_doubted(draft, found)
    found.extend(_own_problems(sound))
    sound = _without_doubted(sound, found)
    found.extend(_club_problems(sound))
    found.extend(wear_problems(log, sound))
    found.extend(told.wear_told_twice(sound, log))
    found.extend(source_problems(club, shelf, draft.shelf))
    if shelf is not None:
        found.extend(shelf_problems(draft.shelf, shelf))
    yield from _without_echoes(found)


def _without_echoes(found: Sequence[Problem]) -> Iterator[Problem]:
    """An unusual value that an error speaks of already is one problem, not two."""
    wrong = _spoken_of(found)
    for problem in found:
        if problem.level == "error" or problem.place not in wrong:
            yield problem


def _spoken_of(found: Sequence[Problem]) -> set[Place]:
    """The places of all errors, also those only mentioned."""
    errors = [problem for problem in found if problem.level == "error"]
    return {place for problem in errors for place in (problem.place, *problem.related)}


def _own_problems(club: ClubDraft) -> Iterator[Problem]:
    for kind, rules in OWN_RULES.items():
        for draft in club.kinds[kind].values():
            for rule in rules:
                yield from rule(draft)


def _club_problems(club: ClubDraft) -> Iterator[Problem]:
    for whole in WHOLE_CLUB_RULES:
        yield from whole(club)
    for kind, rules in CLUB_RULES.items():
        for draft in club.kinds[kind].values():
            for rule in rules:
                yield from rule(draft, club)


def _without_doubted(club: ClubDraft, found: Sequence[Problem]) -> ClubDraft:
    """The club without the dimensions that errors speak of, also those only mentioned."""
    doubted = _spoken_of(found)
    if not doubted:
        return club
    kinds = {
        kind: {identity: _sound(draft, doubted) for identity, draft in drafts.items()}
        for kind, drafts in club.kinds.items()
    }
    return replace(club, kinds=kinds)


def _sound(draft: Draft[Any], doubted: set[Place]) -> Draft[Any]:
    bad = {
        field
        for field in type(draft.record).model_fields
        if draft.has(field) and draft.place(field) in doubted
    }
    if bad & {"over_outer_plates", "plate_thickness"} and not draft.has("between_outer_plates"):
        bad.add("between_outer_plates")
    return replace(draft, dims={field: q for field, q in draft.dims.items() if field not in bad})
