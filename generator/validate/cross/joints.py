"""What cannot be true of a link and its own clip, or of a part and the size code it claims."""

from collections.abc import Iterator
from typing import Any

from generator.model.chain_parts import Chain, Clip, Link, SidePlate
from generator.model.quantity import NM_PER_MM, Quantity
from generator.problems import Problem
from generator.validate.cross.compare import crossing, in_mm, places
from generator.validate.draft import ClubDraft, Draft

# a worn chain is a few per cent long; the next pitch is a quarter longer
MOST_PITCH_OFF = 0.08
WIDEST_PLAY = NM_PER_MM * 6 // 10  # the last-resort limit of clip entry


def clip_stop_contradicts(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """The clip stop is reach + groove - clip, read in one go."""
    clip = club.find("clip", link.record.clip_stop_with or link.record.clip)
    stop, reach, groove = (link.dims.get(name) for name in ("clip_stop", "pin_reach", "groove_width"))
    thickness = clip.dims.get("thickness") if clip is not None else None
    if clip is None or thickness is None or stop is None or reach is None or groove is None:
        return
    reckoned = reach + groove - thickness
    if reckoned.meet(stop) is None:
        message = f"the clip stop is {in_mm(stop.nominal)}, but reach, groove and clip make {in_mm(reckoned.nominal)}"
        related = (*places(link, "pin_reach", "groove_width"), *places(clip, "thickness"))
        yield link.problem("C433", message, "clip_stop", related=related)


def own_clip_does_not_enter(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A link's own clip goes into its groove."""
    clip, groove, thickness = _own_clip(link, club, "groove_width", "thickness")
    level = crossing(thickness, groove)
    if clip is not None and level == "error" and groove is not None and thickness is not None:
        message = f"its own clip is {in_mm(thickness.nominal)} thick, the groove {in_mm(groove.nominal)} wide"
        related = places(clip, "thickness")
        yield link.problem("C434", message, "groove_width", level="warning", related=related)


def own_clip_rattles(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A groove far wider than the link's own clip is a slip, or not its own clip; a worn clip is neither."""
    clip, groove, new = _own_clip(link, club, "groove_width", "thickness_new")
    if clip is not None and groove is not None and new is not None and groove.low - new.high > WIDEST_PLAY:
        message = (
            f"the groove is {in_mm(groove.nominal)} wide, its own clip was {in_mm(new.nominal)} when new"
        )
        related = places(clip, "thickness_new")
        yield link.problem("C435", message, "groove_width", level="warning", related=related)


def own_clip_does_not_snap(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """The mouth of a link's own clip is narrower than its groove, or nothing holds it on."""
    clip, groove, mouth = _own_clip(link, club, "groove_diameter", "mouth")
    if clip is not None and groove is not None and mouth is not None and mouth.low > groove.high:
        message = f"the mouth of its own clip is {in_mm(mouth.nominal)}, the groove only {in_mm(groove.nominal)} across"
        related = places(clip, "mouth")
        yield link.problem("C436", message, "groove_diameter", level="warning", related=related)


def _own_clip(
    link: Draft[Link], club: ClubDraft, of_link: str, of_clip: str
) -> tuple[Draft[Clip] | None, Quantity | None, Quantity | None]:
    clip = club.find("clip", link.record.clip)
    return clip, link.dims.get(of_link), clip.dims.get(of_clip) if clip is not None else None


def clip_of_another_pitch(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A clip's seats are as far apart as the pins it sits on."""
    clip = club.find("clip", link.record.clip)
    if clip is not None and "pin_spacing" in clip.dims:
        message = "the seats of its own clip are {} apart, pins of {} are {}"
        yield from _off_pitch(link, club, clip.dims["pin_spacing"], "clip", "C437", message)


def pitch_of_another_code(chain: Draft[Chain], club: ClubDraft) -> Iterator[Problem]:
    """A pitch that was read belongs to the size code."""
    if "pitch" in chain.dims:
        message = "the pitch is {}, that of {} is {}"
        yield from _off_pitch(chain, club, chain.dims["pitch"], "pitch", "C412", message)


def holes_of_another_code(plate: Draft[SidePlate], club: ClubDraft) -> Iterator[Problem]:
    """The holes of a side plate are one pitch apart."""
    if "hole_spacing" in plate.dims:
        message = "the holes are {} apart, the pitch of {} is {}"
        yield from _off_pitch(plate, club, plate.dims["hole_spacing"], "hole_spacing", "C413", message)


def _off_pitch(
    draft: Draft[Any], club: ClubDraft, read: Quantity, field: str, code: str, words: str
) -> Iterator[Problem]:
    size = club.shelf.sizes.get(draft.record.size_code)
    if size is None:
        return
    pitch = size.dims["pitch"].nominal
    if read.high < pitch * (1 - MOST_PITCH_OFF) or read.low > pitch * (1 + MOST_PITCH_OFF):
        message = words.format(in_mm(read.nominal), size.code, in_mm(pitch))
        yield draft.problem(code, message, field, related=places(draft, "size_code"))


def own_joint_unlike_own_link(chain: Draft[Chain], club: ClubDraft) -> Iterator[Problem]:
    """How a chain is joined is how its own link closes."""
    link = club.find("link", chain.record.own_link)
    joint = chain.record.own_joint
    if link is None or link.record.closure is None or joint in (None, "unknown"):
        return
    if joint == "endless" or joint.split("-")[0] != link.record.closure:
        message = f"own_joint is {joint}, but its own link '{link.id}' closes by {link.record.closure}"
        yield chain.problem(
            "C414", message, "own_joint", related=(*places(chain, "own_link"), *places(link, "closure"))
        )


def slides_without_clip(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A sliding plate comes to rest against its clip; where there is none no reading of the link says where."""
    if link.record.plate_fit != "slip" or link.record.closure not in ("rivet", "screw"):
        return
    tried = [each for each in club.kinds["trial"].values() if each.record.link == link.id]
    if not any({"width_at_joint", "tip_stand_out"} <= set(each.dims) for each in tried):
        message = f"a sliding plate on a link closed by {link.record.closure} has no clip to rest against"
        yield link.problem("C438", message, "plate_fit", level="warning", related=places(link, "closure"))


LINK_CLUB_RULES = (
    slides_without_clip,
    clip_stop_contradicts,
    own_clip_does_not_enter,
    own_clip_rattles,
    own_clip_does_not_snap,
    clip_of_another_pitch,
)
CHAIN_CLUB_RULES = (pitch_of_another_code, own_joint_unlike_own_link)
STRIP_CLUB_RULES = (pitch_of_another_code,)
PLATE_CLUB_RULES = (holes_of_another_code,)
