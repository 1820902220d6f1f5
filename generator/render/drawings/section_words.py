"""What a section drawing says in words: headline, foot and description.

Goes in: faces, marks and spots.  Comes out: sentences.
"""

from collections.abc import Sequence

from generator.render.drawings.section_geometry import FAR_MM, Faces
from generator.render.drawings.section_input import Mark
from generator.render.drawings.section_places import Spot, in_words, range_in_words, wanted_in_words
from generator.render.drawings.units import spelled

_FITS = {
    "slip": "The side plate slides on and is drawn where it bears on the clip.",
    "press": "The side plate is pressed on and is drawn level with its neighbours.",
    "press-to-shoulder": "The side plate is drawn on the shoulder that stops it.",
    "unknown": "Whether the side plate slides on or is pressed is not known; it is drawn level with its neighbours.",
}
_SEALS = {
    "fitted": "Seals are drawn squeezed to the room they have, the inner link in the middle.",
    "left-out": "The seals are left out; the inner link is drawn against the fixed plate.",
    "packed": "Washers take the place of the seals, the inner link in the middle.",
    "none": "There are no seals; the inner link is drawn against the fixed plate.",
}
_NAMES = {"clip_stop": "clip stop", "bike_clearance": "room to the bike"}


def headline(mark: Mark | None, spot: Spot | None) -> str:
    """`Clip goes on: clash 0.07 mm (no-go)`."""
    if mark is None:
        return ""
    if spot is not None:
        return f"{mark.label}: {in_words(spot)} ({mark.rung})"
    return f"{mark.label}{': not known' if mark.nominal is None else ''} ({mark.rung})"


def foot_lines(faces: Faces, panel: str | None, brief: bool = False) -> list[str]:
    """What a reader must know to trust the picture."""
    lines = [
        "Ends, bush and roller outsides are schematic."
        if brief
        else "Cut along one pin, seen from above, to scale; plate ends, bush and roller outsides are schematic."
    ]
    if panel:
        lines.append(f"The upper picture is {panel}.")
    if _missing(faces):
        lines.append("Dashed: not measured.")
    room = faces.values["bike_clearance"]
    if room.known != "missing" and room.mm > FAR_MM:
        lines.append(f"Room to the bike {room.text}, too far away to draw.")
    return lines


def _missing(faces: Faces) -> list[str]:
    return [
        _NAMES.get(name, name.replace("_", " "))
        for name, value in faces.values.items()
        if value.known != "measured" and _concerns(faces, name)
    ]


def _concerns(faces: Faces, name: str) -> bool:
    """Whether a dimension plays a part in this joint at all."""
    if name in ("groove_width", "groove_diameter", "clip_thickness", "pin_reach"):
        return faces.has_clip and not (name == "pin_reach" and faces.values["clip_stop"].known == "measured")
    wanted = {
        "clip_stop": False,
        "shoulder_depth": faces.plate_fit == "press-to-shoulder",
        "seal_thickness": faces.seals in ("fitted", "left-out"),
        "washer_thickness": faces.seals == "packed",
    }
    return wanted.get(name, True)


def description(faces: Faces, deciding: Mark | None, spot: Spot | None, others: Sequence[Spot]) -> str:
    """The same in words, for those who do not see the picture."""
    parts = [
        "A cut along one pin, seen from above: fixed plate, inner link, side plate"
        + (" and clip." if faces.has_clip else "; no clip."),
        _FITS[faces.plate_fit],
        _SEALS[faces.seals],
    ]
    if deciding is not None:
        parts.append(f"Deciding: {headline(deciding, spot)}.")
        parts += [f"{word} {said}." for word, said in _limits(deciding) if said]
    parts += [f"{other.mark.label}: {in_words(other)}." for other in others]
    parts += [f"Known: {_known(faces)}."] if _known(faces) else []
    if missing := _missing(faces):
        parts.append(f"Not measured: {', '.join(missing)}.")
    return spelled(" ".join(parts))


def _limits(mark: Mark) -> tuple[tuple[str, str | None], ...]:
    return ("It could be", range_in_words(mark)), ("Proper would be", wanted_in_words(mark))


def _known(faces: Faces) -> str:
    return ", ".join(
        f"{_NAMES.get(name, name.replace('_', ' '))} {value.text}"
        for name, value in faces.values.items()
        if value.known == "measured"
    )
