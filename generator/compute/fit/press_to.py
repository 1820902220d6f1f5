"""What the tools are set to: how wide a joint is over both outer plates once its plate is where it belongs, how far its
pins are flared."""

from generator.compute.fit.result import Flare, OptionFit
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.rules.hold import hold_of
from generator.rules.place import fixed_plate


def press_to(dataset: Dataset, chain: Part[Chain], link: Part[Link], option: OptionFit) -> Quantity | None:
    """Seat + fixed plate + side plate; None where nothing is pressed, or one of them is not known."""
    thick, fixed = link.dims.get("side_plate_thickness"), fixed_plate(link, dataset.shelf)
    seat = _seat(dataset, chain, link, option)
    return None if seat is None or thick is None or fixed is None else seat + fixed + thick


def over_neighbour(chain: Part[Chain]) -> Quantity | None:
    """Over the outer plates of the chain itself."""
    inside, thick = chain.dims.get("between_outer_plates"), chain.dims.get("plate_thickness")
    return None if inside is None or thick is None else inside + thick + thick


def flare_of(dataset: Dataset, link: Part[Link]) -> Flare | None:
    """Of rivet links; the maker's figure comes before both."""
    size = dataset.shelf.sizes.get(link.record.size_code)
    if link.record.closure != "rivet":
        return None
    pin, more = link.dims.get("pin_diameter"), dataset.shelf.allowances["flare-least"]
    return Flare(
        size.dims.get("flared_diameter") if size is not None else None,
        pin + Quantity(more.nm, more.nm, more.nm, more.evidence) if pin is not None else None,
    )


def _seat(dataset: Dataset, chain: Part[Chain], link: Part[Link], option: OptionFit) -> Quantity | None:
    """Where a pressed plate rests: on its shoulder, against its clip, or level with its neighbours unless the clip stops
    it deeper."""
    if link.record.plate_fit == "press-to-shoulder":
        return link.dims.get("shoulder_depth")
    if link.record.plate_fit != "press":
        return None
    level, stop = chain.dims.get("between_outer_plates"), _stop(dataset, link, option)
    if option.seat == "clip" or level is None:
        return stop if option.seat == "clip" else None
    if stop is None:
        return level
    return Quantity(
        min(level.low, stop.low),
        min(level.nominal, stop.nominal),
        min(level.high, stop.high),
        level.evidence,
    )


def _stop(dataset: Dataset, link: Part[Link], option: OptionFit) -> Quantity | None:
    hold = hold_of(dataset, link, dataset.clips.get(option.clip or ""))
    thick = link.dims.get("side_plate_thickness")
    if hold is None or thick is None:
        return None
    spacer = dataset.seals.get(option.spacer or "")
    under = spacer.dims.get("thickness") if spacer is not None else None
    stop = hold - thick
    return stop if under is None else stop - under
