"""What a dry fit says twice and not alike: where the plate lies, how plate and clip went on."""

from collections.abc import Iterator
from itertools import pairwise

from generator.model.chain_parts import Chain, Link
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.trials_and_rides import Trial
from generator.problems import Problem
from generator.validate.cross.compare import in_mm, places
from generator.validate.draft import ClubDraft, Draft

GAPS = (
    "joint_gap_clip_side",
    "joint_gap_other_side",
    "neighbour_gap_clip_side",
    "neighbour_gap_other_side",
)
# where a straight edge still lies level for the eye (common practice, no source)
LEVEL = Quantity(-NM_PER_MM // 10, 0, NM_PER_MM * 15 // 100)
# a fixed plate nobody measured beside its side plate, and the plates of a link that came with its chain
FIXED_PLATE, SAME_MAKE = NM_PER_MM * 15 // 100, NM_PER_MM // 20


def place_by_widths(trial: Draft[Trial], chain: Draft[Chain], link: Draft[Link]) -> Quantity | None:
    """How far the side plate lies outside its neighbours', by the widths over the plates."""
    widths = [trial.dims.get(name) for name in ("width_at_joint", "width_at_neighbour")]
    plate, side = chain.dims.get("plate_thickness"), link.dims.get("side_plate_thickness")
    if plate is None or widths[0] is None or widths[1] is None:
        return None
    if link.record.came_with == chain.id:
        side = side or _about(plate, SAME_MAKE)
    if side is None:
        return None
    fixed = link.dims.get("fixed_plate_thickness") or _about(side, FIXED_PLATE)
    return widths[0] - widths[1] - (side + fixed - plate - plate)


def place_by_gaps(trial: Draft[Trial]) -> Quantity | None:
    """The same by four feeler gaps."""
    gaps = [trial.dims.get(name) for name in GAPS]
    if any(gap is None for gap in gaps):
        return None
    near, far, beside, beyond = (gap for gap in gaps if gap is not None)
    return near + far - beside - beyond


def _about(read: Quantity, half: int) -> Quantity:
    return Quantity(read.low - half, read.nominal, read.high + half)


def plate_told_twice(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """Widths, gaps and straight edge say where the same plate lies."""
    chain, link = club.find("chain", trial.record.chain), club.find("link", trial.record.link)
    if chain is None or link is None:
        return
    told = [
        ("the widths", "width_at_joint", place_by_widths(trial, chain, link)),
        ("the feeler gaps", GAPS[0], place_by_gaps(trial)),
        ("the straight edge", "plates_level", LEVEL if trial.record.plates_level else None),
    ]
    known = [(words, field, place) for words, field, place in told if place is not None]
    for (words, field, place), (others, other, beside) in pairwise(known):
        if place.meet(beside) is None:
            message = f"by {words} the plate lies {in_mm(place.nominal)} outside its neighbours, by {others} {in_mm(beside.nominal)}"
            fix = "measure both again; over the plates means at the waist, off the heads"
            yield trial.problem("T511", message, other, fix=fix, related=places(trial, field))


def clip_told_twice(trial: Draft[Trial]) -> Iterator[Problem]:
    """How a clip went on, and that it is used up, are said of one that went on."""
    seen = trial.record
    if seen.clip_on is True:
        return
    if seen.clip_with != "unknown":
        message = "how the clip went on is told, but not that it went on"
        yield trial.problem("T512", message, "clip_with", related=places(trial, "clip_on"))
    elif seen.clip_on is False and "clip" in (seen.used_up or ()):
        message = "the clip is used up, but it did not go on"
        yield trial.problem("T512", message, "used_up", level="warning", related=places(trial, "clip_on"))


def plate_of_another_fit(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """A plate that slides on needs no press."""
    link = club.find("link", trial.record.link)
    if link is not None and link.record.plate_fit == "slip" and trial.record.plate_on == "pressed":
        fix = "write plate_on: by-hand, or plate_fit: press at the link"
        message = "the plate was pressed on, but the link says that it slides on"
        yield trial.problem("T513", message, "plate_on", fix=fix, related=places(link, "plate_fit"))


def nothing_and_something(trial: Draft[Trial]) -> Iterator[Problem]:
    """`used_up: nothing` stands alone."""
    used = trial.record.used_up or ()
    if "nothing" in used and len(used) > 1:
        yield trial.problem("T514", "nothing was used up, and something was", "used_up")


def spacers_no_washers(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """What lies under the clip on each pin is a washer."""
    spacers = club.find("seal", trial.record.spacers)
    if spacers is not None and spacers.record.shape not in (None, "washer"):
        message = f"'{spacers.id}' is no washer, so it does not lie under a clip"
        yield trial.problem("T515", message, "spacers", related=places(spacers, "shape"))


def thrown_unridden(trial: Draft[Trial]) -> Iterator[Problem]:
    """Only a joint that was ridden can throw its clip."""
    if trial.record.thrown_later and trial.record.left_in_use is False:
        message = "it threw its clip or plate, but was not left in use"
        yield trial.problem("T516", message, "thrown_later", related=places(trial, "left_in_use"))


DRY_FIT_RULES = (clip_told_twice, nothing_and_something, thrown_unridden)
DRY_FIT_CLUB_RULES = (plate_told_twice, plate_of_another_fit, spacers_no_washers)
