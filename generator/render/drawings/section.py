"""The section drawing of a chain with a connecting link: a cut through one pin, seen from above, to scale.

Goes in: dimensions, the clearances to mark and which of them decides.  Comes out: SVG text.
"""

from collections.abc import Sequence, Set
from dataclasses import dataclass, replace
from math import ceil

from markupsafe import Markup

from generator.model.quantity import NM_PER_MM
from generator.render.drawings.palette import hatches_in
from generator.render.drawings.section_dims import (
    Across,
    across,
    deciding_mark,
    dimension_rows,
    mark_rows,
    pointer_foot,
    upright_marks,
)
from generator.render.drawings.section_geometry import Faces, faces_of
from generator.render.drawings.section_input import Mark, SectionDimensions
from generator.render.drawings.section_inset import enlarged, inset
from generator.render.drawings.section_labels import BOLD, LEFT, RIGHT, ROW, Flag, flags, wrap
from generator.render.drawings.section_lengths import concerned, extent
from generator.render.drawings.section_parts import Sheet, bodies, ghosts
from generator.render.drawings.section_places import Spot, spot_of
from generator.render.drawings.section_rows import rows, tick
from generator.render.drawings.section_words import description, foot_lines, headline
from generator.render.drawings.svg import (
    Attr,
    clean,
    decimals_for,
    document,
    group,
    lettering,
    path,
    safe_id,
    short_document,
    text,
)
from generator.render.drawings.units import length, spelled, typed

_TALLEST = 190.0
# below this a joint is a dot, not a picture
_LEAST_MM = 0.05


@dataclass(frozen=True, slots=True)
class _Panel:
    """Shapes and words, the y they end at, and the x a pointer may leave them from."""

    shapes: Markup
    words: Markup
    end: float
    middle: float = 0.0


def section_drawing(
    dims: SectionDimensions,
    marks: Sequence[Mark] = (),
    deciding: str | None = None,
    prefix: str = "section",
    title: str = "Section through one pin of the joint",
    letter: Set[str] | None = None,
) -> Markup:
    """The drawing; `deciding` is the check_id of the mark that is enlarged and drawn in place.  Where `letter` is
    given, only those dimensions are lettered, and words that the page says anyway are left out.
    """
    faces, prefix = faces_of(dims), safe_id(prefix)
    # cleaned before it is measured: a replacement character is wider than what it replaces
    marks = [replace(mark, label=typed(clean(mark.label)), rung=typed(clean(mark.rung))) for mark in marks]
    decisive = next((mark for mark in marks if mark.check_id == deciding), None)
    spot = spot_of(decisive, faces) if decisive else None
    others = [s for mark in marks if mark is not decisive and (s := spot_of(mark, faces))]
    frame = _frame(faces, spot, others)
    scale = frame.scale
    head = _head(decisive, spot, prefix, letter is not None)
    names = _flags(faces, frame, spot)
    top = head.end + ROW * (max((f.box.row for f in names), default=-1) + 1) + 18
    sheet = Sheet(scale, frame.x0, top + frame.up * scale, decimals_for(scale), prefix, letter is not None)
    wanted = concerned(faces) if letter is None else concerned(faces) & letter
    diameters = across(faces, sheet, wanted)
    picture = _picture(faces, sheet, spot, others, names, head, diameters)
    top = float(ceil(sheet.y(frame.down) + 16))
    entries = dimension_rows(faces, sheet, wanted) + diameters.below + mark_rows(others, sheet)
    below = rows(entries, top, prefix, sheet.decimals)
    panel = enlarged(spot, scale) if spot else None
    foot = _foot(
        [sheet.say(said) for said in foot_lines(faces, panel, letter is not None)], sheet, top + below.height
    )
    shapes = Markup("").join((head.shapes, picture.shapes, below.lines, foot.shapes))
    defs, words = (
        hatches_in(prefix, shapes, tick(prefix)),
        lettering(head.words, picture.words, below.words, foot.words),
    )
    look: dict[str, Attr] = {"class_": "drawing section", "data_scale": f"{scale:.12g}", "color": "#14181d"}
    if letter is not None:
        return short_document(foot.end, title, spelled(headline(decisive, spot)), defs, shapes, words, **look)
    body = (defs, group(shapes, stroke="currentColor", stroke_width=1.2), words)
    return document(prefix, foot.end, title, description(faces, decisive, spot, others), *body, **look)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Drawing units a millimetre, x of the fixed plate's face, and how far the picture goes up and down in mm."""

    scale: float
    x0: float
    up: float
    down: float


def _frame(faces: Faces, spot: Spot | None, others: Sequence[Spot]) -> _Frame:
    """As large as the page's width and a decent height allow."""
    along = [x for s in (spot, *others) if s and s.ends and s.site.axis == "x" for x in s.ends]
    upright = [0.0, *(y for s in (spot, *others) if s and s.ends and s.site.axis == "y" for y in s.ends)]
    low, high = extent(faces)
    low, high = min([low, *along]), max([high, *along])
    up, down = max(faces.half_height, -min(upright)), max(faces.half_height, max(upright))
    scale = min((RIGHT - LEFT) / max(high - low, _LEAST_MM), _TALLEST / max(up + down, _LEAST_MM))
    return _Frame(scale, (LEFT + RIGHT) / 2 - scale * (low + high) / 2, up, down)


def _head(decisive: Mark | None, spot: Spot | None, prefix: str, plain: bool) -> _Panel:
    """The deciding check in words, and the enlarged panel."""
    said = headline(decisive, spot)
    lines = wrap(spelled(said) if plain else said, RIGHT - LEFT, 13.5 * BOLD) if decisive else ()
    y = 4 + 18.0 * len(lines)
    texts = (text(LEFT, 17 + 18.0 * i, words) for i, words in enumerate(lines))
    words = group(*texts, font_size=13.5, font_weight="bold") if lines else Markup("")
    if spot is None:
        return _Panel(Markup(""), words, y + 4)
    panel = inset(spot, prefix, y + 4, plain)
    return _Panel(panel.shapes, words + panel.words, panel.end, panel.middle)


def _flags(faces: Faces, frame: _Frame, spot: Spot | None) -> tuple[Flag, ...]:
    """Part names above the picture; a pointer to the deciding place stays clear of them."""
    thick, plate = faces.mm("side_plate_thickness"), faces.mm("plate_thickness")
    parts = [("fixed plate", -thick, 0.0), ("inner link", faces.inner[0], faces.inner[0] + plate)]
    if faces.seals != "none":
        word = {"fitted": "seal", "left-out": "seal left out", "packed": "washers"}[faces.seals]
        middle = (faces.inner[1] + faces.seat) / 2
        parts.append((word, middle, middle))
    parts.append(("side plate", faces.seat, faces.plate_outer))
    if faces.has_clip:
        parts.append(("clip", faces.clip_near, faces.groove_far))
    if faces.guide is not None:
        parts.append(("bike", faces.guide, faces.guide))
    x0, scale = frame.x0, frame.scale
    clear = [x0 + scale * sum(spot.ends) / 2] if spot and spot.ends and spot.site.axis == "x" else []
    return flags([(word, x0 + scale * low, x0 + scale * high) for word, low, high in parts], clear)


def _picture(
    faces: Faces,
    sheet: Sheet,
    spot: Spot | None,
    others: Sequence[Spot],
    names: Sequence[Flag],
    head: _Panel,
    diameters: Across,
) -> _Panel:
    half = faces.half_height * sheet.scale
    top, bottom = sheet.y0 - half, sheet.y0 + half
    shapes = [bodies(faces, sheet), ghosts(faces, sheet, top, bottom + 8), diameters.lines]
    shapes.append(upright_marks(others, faces, sheet))
    if spot:
        shapes.append(deciding_mark(spot, faces, sheet))
        shapes.append(_pointer(spot, faces, sheet, head))
    poles, flags_ = _poles(names, top)
    return _Panel(Markup("").join((*shapes, poles)), diameters.words + flags_, bottom)


def _pointer(spot: Spot, faces: Faces, sheet: Sheet, head: _Panel) -> Markup:
    """From the enlarged clearance to the place itself."""
    foot = pointer_foot(spot, faces, sheet)
    if foot is None:
        return Markup("")
    x, y = foot
    return path("M", head.middle, head.end, "V", head.end + 7, "H", x, "V", y - 4, stroke_width=1.8) + path(
        "M", x, y, "L", x - 4.5, y - 9, "H", x + 4.5, "Z", fill="currentColor", stroke="none"
    )


def _poles(names: Sequence[Flag], top: float) -> tuple[Markup, Markup]:
    """Poles stand on the parts; names hang beside them."""
    steps = [step for f in names for step in ("M", f.x, top - 8 - ROW * f.box.row, "V", top + 5)]
    words = (text(f.box.x + 2, top - 11 - ROW * f.box.row, f.box.words) for f in names)
    return path(*steps, stroke_width=0.9), Markup("").join(words)


def _foot(lines: Sequence[str], sheet: Sheet, top: float) -> _Panel:
    """What a reader must know to trust the picture, with a measure of 5 mm where that fits."""
    words = [line_ for sentence in lines for line_ in wrap(sentence, RIGHT - LEFT)]
    bar, y = 5 * sheet.scale, top + 12
    said = group(*(text(LEFT, y + 16 + 15 * i, w) for i, w in enumerate(words)))
    end = y + 16 + 15 * len(words)
    if not 20 <= bar <= 200:
        return _Panel(Markup(""), said, end)
    ruler = path(
        "M", LEFT, y - 4, "v8", "m", 0.0, -4.0, "h", bar, "m", 0.0, -4.0, "v8",
    )  # fmt: skip
    return _Panel(ruler, said + text(LEFT + bar + 6, y + 4, spelled(length(5 * NM_PER_MM))), end)
