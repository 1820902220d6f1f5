"""The parts of a pair as the section drawing wants them."""

from collections.abc import Mapping, Sequence

from markupsafe import Markup

from generator.compute.fit.result import PairFit
from generator.model.chain_parts import Clip, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.model.shipped import Drawn
from generator.render.base.lengths import shown_length
from generator.render.drawings.section.drawing import section_drawing
from generator.render.drawings.section.input import Seals, SectionDimensions
from generator.render.say.drawing import CUT_ALONG, PRESS_TO
from generator.render.say.reasons import Reason
from generator.rules.hold import hold_of
from generator.rules.rooms import least_room_read

CHAIN_FIELDS = (
    "bush_bore",
    "over_inner_plates",
    "over_bush_ends",
    "between_outer_plates",
    "over_riveted_pins",
    "plate_thickness",
)
LINK_FIELDS = (
    "pin_diameter",
    "pin_reach",
    "pin_length",
    "shoulder_depth",
    "groove_width",
    "groove_diameter",
    "side_plate_thickness",
)


def pair_drawing(dataset: Dataset, fit: PairFit, reasons: Sequence[Reason]) -> Markup:
    """The chosen way to join a pair, with the numbers of its reasons."""
    width = fit.press_to
    numbers: dict[Drawn, int] = {}
    for reason in reasons:
        if reason.place is not None:
            numbers[reason.place] = len(numbers) + 1
    return section_drawing(
        section_dimensions(dataset, fit),
        CUT_ALONG.format(link=fit.link, chain=fit.chain),
        PRESS_TO.format(shown_length(width.nominal).mm) if width is not None else "",
        numbers,
    )


def section_dimensions(dataset: Dataset, fit: PairFit) -> SectionDimensions:
    """As chosen; a pair that is refused is drawn with the link's own clip and seals."""
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    option = fit.option
    clip = dataset.clips.get((option.clip if option else link.record.clip) or "")
    seals = _seals(dataset, fit, link)
    lining = dataset.seals.get((option.seal_set if option else link.record.seals) or "")
    thickness = lining.dims.get("thickness") if lining else None
    own = dataset.seals.get(link.record.seals or "")
    return SectionDimensions(
        **_some(chain.dims, CHAIN_FIELDS),
        **_some(link.dims, LINK_FIELDS),
        clip_stop=_clip_stop(dataset, link, clip),
        clip_thickness=clip.dims.get("thickness") if clip else None,
        seal_thickness=thickness if seals == "fitted" else own.dims.get("thickness") if own else None,
        washer_thickness=thickness if seals == "packed" else None,
        bike_clearance=least_room_read(dataset, chain.id),
        plate_fit=link.record.plate_fit,
        closure=link.record.closure,
        seals=seals,
    )


def _some(dims: Mapping[str, Quantity], fields: tuple[str, ...]) -> dict[str, Quantity | None]:
    return {field: dims.get(field) for field in fields}


def _seals(dataset: Dataset, fit: PairFit, link: Part[Link]) -> Seals:
    if fit.option is None:
        return "fitted" if link.record.seals in dataset.seals else "none"
    words: Mapping[str, Seals] = {"fitted": "fitted", "left-out": "left-out", "packed": "packed"}
    return words.get(fit.option.seals, "none")


def _clip_stop(dataset: Dataset, link: Part[Link], clip: Part[Clip] | None) -> Quantity | None:
    """For the clip that is drawn, where the reach of the pin was not read itself."""
    return None if "pin_reach" in link.dims else hold_of(dataset, link, clip)
