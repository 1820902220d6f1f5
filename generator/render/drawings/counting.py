"""How a chain is counted in pitches, and why one pitch alone cannot be taken out."""

from itertools import pairwise

from markupsafe import Markup

from generator.render.drawings.bases_chain import link_side
from generator.render.drawings.diagram import SCHEMATIC, dimension_across, note, pointer, sheet
from generator.render.drawings.svg import group, path, safe_id

_JOINTS = tuple(54.0 + 42.0 * i for i in range(7))
_TITLE = "Count pitches: from one pin to the next"
_DESC = (
    "Three runs of chain from the side. In the first, inner and outer links take turns; each is one "
    "pitch, and the connecting link is an outer link. In the second, one pitch has been taken out: one "
    "end is inner and the other is outer, and the connecting link, itself an outer link, cannot join an "
    "outer end. In the third, two pitches have been taken out: both ends are inner again and the "
    "connecting link joins them. So a closed loop has an even number of pitches. Schematic, not to scale."
)


def counting_drawing(prefix: str = "counting") -> Markup:
    """A run counted, a joint with one pitch out, and a joint with two pitches out."""
    ids = safe_id(prefix)
    foot = [
        "Inner and outer links take turns, so a closed loop has an even number of pitches.",
        SCHEMATIC,
    ]
    return sheet(
        "counting",
        ids,
        _TITLE,
        _DESC,
        318.0,
        [_counted(ids, 92.0), _one_out(ids, 204.0), _two_out(ids, 290.0)],
        foot,
    )


def _run(prefix: str, joints: tuple[float, ...], y: float, outer_first: bool) -> Markup:
    links = [
        link_side(prefix, x1, x2, y, outer=bool(i % 2) != outer_first)
        for i, (x1, x2) in enumerate(pairwise(joints))
    ]
    return group(*links)


def _connecting(prefix: str, x1: float, y: float) -> Markup:
    """The connecting link: an outer link with a clip over its two pins."""
    x2 = x1 + 42.0
    clip = path(
        "M", x1 - 7, y - 5, "H", x2 + 3, "A 5 5 0 0 1", x2 + 3, y + 5, "H", x1 - 7,
        stroke="currentColor", stroke_width=2.4,
    )  # fmt: skip
    return group(link_side(prefix, x1, x2, y, outer=True), clip)


def _counted(prefix: str, y: float) -> Markup:
    middles = [(a + b) / 2 for a, b in pairwise(_JOINTS)]
    numbers = [note(x, y + 30, str(i + 1), "middle") for i, x in enumerate(middles)]
    return group(
        _run(prefix, _JOINTS, y, outer_first=False),
        _connecting(prefix, _JOINTS[3], y),
        *numbers,
        dimension_across(_JOINTS[0], _JOINTS[1], y - 30, "1 pitch", y),
        note(146.0, y - 44, "connecting link: an outer link"),
        pointer(201.0, y - 40, 201.0, y - 8),
        note(_JOINTS[0] - 40, y + 56, "inner"),
        pointer(_JOINTS[0] - 4, y + 48, middles[0] - 6, y + 6),
        note(middles[1] - 20, y + 56, "outer"),
        pointer(middles[1] - 12, y + 46, middles[1] - 10, y + 5),
    )


def _one_out(prefix: str, y: float) -> Markup:
    x = _JOINTS[4]
    cross = path(
        "M",
        x + 3,
        y - 32,
        "l",
        14.0,
        14.0,
        "m",
        0.0,
        -14.0,
        "l",
        -14.0,
        14.0,
        stroke="currentColor",
        stroke_width=3.0,
    )
    return group(
        note(14.0, y - 22, "one pitch out: one end is outer"),
        _run(prefix, _JOINTS[:4], y, outer_first=False),
        _run(prefix, tuple(joint + 28.0 for joint in _JOINTS[4:]), y, outer_first=True),
        _connecting(prefix, _JOINTS[3], y),
        cross,
        note(x + 24, y - 22, "does not join"),
    )


def _two_out(prefix: str, y: float) -> Markup:
    return group(
        note(14.0, y - 22, "two pitches out: both ends are inner"),
        _run(prefix, _JOINTS[:4], y, outer_first=False),
        _run(prefix, _JOINTS[4:], y, outer_first=False),
        _connecting(prefix, _JOINTS[3], y),
        note(_JOINTS[4] + 34, y - 22, "joins"),
    )
