"""A drawing for each dimension that a recipe tells how to read."""

from collections.abc import Mapping

from markupsafe import Markup

from generator.render.drawings.diagram import SCHEMATIC
from generator.render.drawings.dimensions_chain import CHAIN_VIEWS
from generator.render.drawings.dimensions_link import LINK_VIEWS
from generator.render.drawings.dimensions_rest import CLIP_AND_SEAL_VIEWS, TOOL_AND_BIKE_VIEWS
from generator.render.drawings.palette import hatches_in
from generator.render.drawings.svg import document, safe_id
from generator.render.drawings.view import GAUGE_WORDS, View

_VIEWS: Mapping[str, View] = {**CHAIN_VIEWS, **LINK_VIEWS, **CLIP_AND_SEAL_VIEWS, **TOOL_AND_BIKE_VIEWS}
_CUT = 9.0  # nothing stands there, and the letters of a phone reach as far beyond on the right
DRAWN: tuple[str, ...] = tuple(sorted(_VIEWS))


def dimension_drawing(recipe: str, prefix: str | None = None) -> Markup:
    """How the dimension of a recipe is read; `recipe` is one of DRAWN.  Its words stand beside it."""
    view = _VIEWS[recipe]
    ids = safe_id(prefix if prefix is not None else f"dim-{recipe}")
    shapes = view.shapes(ids)
    return document(
        ids,
        view.bottom,
        view.title,
        dimension_words(recipe),
        hatches_in(ids, shapes),
        shapes,
        cut=_CUT,
        class_="drawing dimension",
        color="#14181d",
    )


def dimension_words(recipe: str) -> str:
    """What is the gauge in the drawing, and where it touches."""
    view = _VIEWS[recipe]
    told = GAUGE_WORDS[view.gauge] + view.touches
    return f"{told[0].upper()}{told[1:]}. {SCHEMATIC}"
