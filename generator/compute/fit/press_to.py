"""How wide a joint is over both outer plates once its side plate is where it belongs: what the press is set to."""

from generator.compute.fit.result import PairFit
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import NM_PER_MM, Quantity
from generator.rules.hold import hold_of

# a fixed plate nobody read is as thick as the side plate, give or take so much [common practice]
_FIXED_UNREAD = Quantity(-3 * NM_PER_MM // 20, 0, 3 * NM_PER_MM // 20, "common-practice")


def press_to(dataset: Dataset, fit: PairFit) -> Quantity | None:
    """Seat + fixed plate + side plate; None where nothing is pressed, or one of them is not known."""
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    thick = link.dims.get("side_plate_thickness")
    seat = _seat(dataset, fit, chain, link)
    if seat is None or thick is None:
        return None
    fixed = link.dims.get("fixed_plate_thickness") or thick + _FIXED_UNREAD
    return seat + fixed + thick


def over_neighbour(chain: Part[Chain]) -> Quantity | None:
    """Over the outer plates of the chain itself."""
    inside, thick = chain.dims.get("between_outer_plates"), chain.dims.get("plate_thickness")
    return None if inside is None or thick is None else inside + thick + thick


def _seat(dataset: Dataset, fit: PairFit, chain: Part[Chain], link: Part[Link]) -> Quantity | None:
    """Where a pressed plate rests: on its shoulder, or level with its neighbours unless the clip stops it deeper."""
    if link.record.plate_fit == "press-to-shoulder":
        return link.dims.get("shoulder_depth")
    level = chain.dims.get("between_outer_plates")
    if link.record.plate_fit != "press" or level is None:
        return None
    clip = dataset.clips.get((fit.option.clip if fit.option else None) or "")
    hold, thick = hold_of(dataset, link, clip), link.dims.get("side_plate_thickness")
    if hold is None or thick is None:
        return level
    stop = hold - thick
    return Quantity(
        min(level.low, stop.low),
        min(level.nominal, stop.nominal),
        min(level.high, stop.high),
        level.evidence,
    )
