"""What cannot be true of lengths told beside another link, and of wear told twice."""

from collections.abc import Iterator, Sequence
from typing import Any

from generator.model.chain_parts import Chain, Link
from generator.model.quantity import PPM_OF_PERCENT
from generator.problems import Problem
from generator.validate.cross.compare import places
from generator.validate.draft import ClubDraft, Draft
from generator.validate.told import (
    COMPARABLE,
    compared_fields,
    logged_wear,
    look_at_wear,
    written_wear,
)
from generator.validate.wear_log import LoggedRow


def compared_with_nothing(club: ClubDraft) -> Iterator[Problem]:
    """`same` and `longer by` need the link they speak of, and only some lengths of a link are told so."""
    for kind, drafts in club.kinds.items():
        for draft in drafts.values():
            for field in compared_fields(draft):
                yield from _one_comparison(kind, draft, field)


def _one_comparison(kind: str, draft: Draft[Any], field: str) -> Iterator[Problem]:
    if kind != "link" or field not in COMPARABLE:
        fix = "measure it, or write unknown"
        message = f"{field} cannot be told by holding it against another"
        yield draft.problem("C445", message, field, fix=fix)
    elif draft.record.compared_with is None:
        fix = "add compared_with: and the id of the link it was held against"
        yield draft.problem("C439", f"{field} is compared with nothing", field, fix=fix)


def held_against_itself(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A link held against one that was held against it tells nothing of either."""
    told, other = set(compared_fields(link)), club.find("link", link.record.compared_with)
    if other is None:
        return
    if other.id == link.id:
        yield link.problem("C440", "a link is held against itself", "compared_with")
    elif other.record.compared_with == link.id:
        both = sorted(told & set(compared_fields(other)))
        if both:
            message = f"{' and '.join(both)} of both is told by the other"
            related = places(other, *both)
            yield link.problem("C440", message, both[0], fix="measure one of the two", related=related)


def nothing_compared(link: Draft[Link]) -> Iterator[Problem]:
    """What was held against another link and what was seen belong together."""
    if link.whole and link.record.compared_with is not None and not compared_fields(link):
        fix = "write what was seen, such as pin_length: same, or take compared_with out"
        message = "held against another link, but no length says same or longer by"
        yield link.problem("C448", message, "compared_with", fix=fix, level="warning")


def wear_told_twice(club: ClubDraft, log: Sequence[LoggedRow]) -> Iterator[Problem]:
    """The newest reading of the log is the wear of a chain; record and look say the same, or one is wrong."""
    for chain in club.kinds["chain"].values():
        size = club.shelf.sizes.get(chain.record.size_code or "")
        logged = logged_wear(chain.id, size.dims["pitch"].nominal if size else None, log)
        if logged is None:
            continue
        rows = [row for row in log if row.record.chain == chain.id]
        related = (max(rows, key=lambda row: row.record.date).place("inside"),)
        for field, told in (
            ("elongation", written_wear(chain, club.shelf)),
            ("pull_off", look_at_wear(chain.record, club.shelf)),
        ):
            if told is not None and logged.meet(told) is None:
                ends = f"{logged.low / PPM_OF_PERCENT:.2f} to {logged.high / PPM_OF_PERCENT:.2f} per cent"
                fix = "take it out, or measure again: the log goes before the record"
                yield chain.problem(
                    "W813", f"the wear log says {ends}, this does not", field, fix=fix, related=related
                )


def seals_on_a_plain_looking_chain(chain: Draft[Chain]) -> Iterator[Problem]:
    """On a plain chain the outer plates lie against the bush ends; room for a ring there says that it is sealed."""
    between, ends = chain.dims.get("between_outer_plates"), chain.dims.get("over_bush_ends")
    if chain.record.kind != "plain" or between is None or ends is None:
        return
    gap = between - ends
    if gap.low > LOOKS_SEALED:
        message = f"called plain, but there is {gap.nominal / 1_000_000:.2f} mm of room for seals"
        related = places(chain, "between_outer_plates", "over_outer_plates", "over_bush_ends")
        fix = "look for rings between the plates: kind: sealed, or measure again"
        yield chain.problem("C418", message, "kind", fix=fix, level="warning", related=related)


# common practice, no source: no plain chain has more room between bush end and outer plates
LOOKS_SEALED = 600_000
