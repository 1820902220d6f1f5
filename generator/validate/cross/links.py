"""What cannot be true of a connecting link by itself."""

from collections.abc import Iterator

from generator.model.chain_parts import NO_PART, Link
from generator.model.pin_wear import SOUND
from generator.model.quantity import NM_PER_MM
from generator.problems import Problem
from generator.validate.cross.compare import crossing, in_mm, must_fit, places
from generator.validate.draft import ClubDraft, Draft

LEAST_TIP_LAND = NM_PER_MM // 4  # the last-resort limit of the tip land


def groove_beyond_tip(link: Draft[Link]) -> Iterator[Problem]:
    """The groove ends before the pin does."""
    reach, groove, length = (link.dims.get(name) for name in ("pin_reach", "groove_width", "pin_length"))
    if reach is None or groove is None or length is None or _groove_wider_than_pin(link):
        return
    end = reach + groove
    level = crossing(end, length)
    if level is not None:
        message = f"the groove ends {in_mm(end.nominal)} from the plate, the pin at {in_mm(length.nominal)}"
        related = places(link, "pin_reach", "groove_width")
        yield link.problem("C421", message, "pin_length", level=level, related=related)


def tip_land_too_short(link: Draft[Link]) -> Iterator[Problem]:
    """Too little metal beyond the groove breaks away; the fit says so too, this says it on the bench."""
    reach, groove, length = (link.dims.get(name) for name in ("pin_reach", "groove_width", "pin_length"))
    if reach is None or groove is None or length is None:
        return
    land = length - reach - groove
    if 0 <= land.nominal < LEAST_TIP_LAND:
        message = f"only {in_mm(land.nominal)} of pin is left beyond the groove"
        yield link.problem(
            "C422", message, "pin_length", level="warning", related=places(link, "pin_reach", "groove_width")
        )


def groove_wider_than_pin(link: Draft[Link]) -> Iterator[Problem]:
    """A groove is cut into the pin, so its bottom is thinner than the pin."""
    words = "the groove is {} across, the pin only {}"
    yield from must_fit(link, "C423", "groove_diameter", "pin_diameter", words)
    if _groove_wider_than_pin(link):
        words = "the groove is {} wide, the pin only {} thick"
        yield from must_fit(link, "C423", "groove_width", "pin_diameter", words)


def _groove_wider_than_pin(link: Draft[Link]) -> bool:
    """No clip is as thick as a pin, so this is a slip; what follows from it is not said again."""
    return crossing(link.dims.get("groove_width"), link.dims.get("pin_diameter")) == "error"


def shoulder_beyond_groove(link: Draft[Link]) -> Iterator[Problem]:
    """The side plate stops at the shoulder and the groove lies outside it."""
    words = "the shoulder at {} lies beyond the groove at {}"
    yield from must_fit(link, "C424", "shoulder_depth", "pin_reach", words)


def shoulder_nobody_asked_for(link: Draft[Link]) -> Iterator[Problem]:
    """A shoulder depth belongs to a plate pressed to a shoulder."""
    if "shoulder_depth" in link.dims and link.record.plate_fit in ("slip", "press"):
        fix = "write plate_fit: press-to-shoulder, or take shoulder_depth out"
        message = f"a shoulder depth, but the side plate is said to be {link.record.plate_fit}"
        yield link.problem("C425", message, "shoulder_depth", fix=fix, related=places(link, "plate_fit"))


def shoulder_not_measured(link: Draft[Link]) -> Iterator[Problem]:
    """A plate that stops at a shoulder is judged by the depth of the shoulder."""
    if link.whole and link.record.plate_fit == "press-to-shoulder" and not link.has("shoulder_depth"):
        fix = "measure shoulder_depth, or write shoulder_depth: unknown"
        yield link.problem(
            "C426", "pressed to a shoulder whose depth is not written", "plate_fit", fix=fix, level="warning"
        )


def clip_without_groove(link: Draft[Link]) -> Iterator[Problem]:
    """A riveted or screwed link takes no clip."""
    if link.record.clip not in (None, *NO_PART) and link.record.closure in ("rivet", "screw"):
        message = f"a clip on a link closed by {link.record.closure}"
        yield link.problem("C427", message, "clip", related=places(link, "closure"))


def bore_in_solid_pin(link: Draft[Link]) -> Iterator[Problem]:
    """A solid pin has no bore."""
    if link.record.pin_kind == "solid" and "hollow_depth" in link.dims:
        fix = "write pin_kind: hollow, or take hollow_depth out"
        yield link.problem(
            "C428", "a bore in a solid pin", "hollow_depth", fix=fix, related=places(link, "pin_kind")
        )


def bore_beyond_pin(link: Draft[Link]) -> Iterator[Problem]:
    """The bore ends before the pin does."""
    words = "the bore is {} deep, the pin only {} long"
    yield from must_fit(link, "C429", "hollow_depth", "pin_length", words)


def reach_beyond_tip(link: Draft[Link]) -> Iterator[Problem]:
    """The groove begins before the pin ends."""
    if "groove_width" not in link.dims:
        words = "the groove begins {} from the plate, the pin ends at {}"
        yield from must_fit(link, "C421", "pin_reach", "pin_length", words)


def plate_thicker_than_reach(link: Draft[Link]) -> Iterator[Problem]:
    """The side plate goes on before the groove, with the chain between."""
    words = "the side plate is {} thick, the groove only {} away"
    yield from must_fit(link, "C430", "side_plate_thickness", "pin_reach", words)


def worn_pin_called_sound(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A step on a pin is what `worn` means, and so it is judged."""
    step = link.dims.get("pin_step") if link.whole else None
    if (
        step is not None
        and step.nominal >= club.shelf.allowances["pin-step"].nm
        and link.record.condition in SOUND
    ):
        message = f"a step of {in_mm(step.nominal)} on a pin, but the link is called {link.record.condition}"
        related = places(link, "condition")
        yield link.problem(
            "C431", message, "pin_step", fix="write condition: worn", level="warning", related=related
        )


def readings_show_a_step(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A pin that reads two widths so far apart is worn at one of them, or was misread."""
    written = link.record.pin_diameter
    if written is None or written.is_unknown or written.form != "read" or link.record.pin_step is not None:
        return
    apart = max(written.readings) - min(written.readings)
    if apart >= club.shelf.allowances["pin-step"].nm:
        message = f"the readings lie {in_mm(int(apart))} apart, which reads as a step on the pin"
        fix = "write the step as pin_step, or measure again"
        yield link.problem("C432", message, "pin_diameter", fix=fix, level="warning")


LINK_RULES = (
    groove_beyond_tip,
    tip_land_too_short,
    groove_wider_than_pin,
    shoulder_beyond_groove,
    shoulder_nobody_asked_for,
    shoulder_not_measured,
    clip_without_groove,
    bore_in_solid_pin,
    bore_beyond_pin,
    reach_beyond_tip,
    plate_thicker_than_reach,
)
LINK_WEAR_RULES = (worn_pin_called_sound, readings_show_a_step)
