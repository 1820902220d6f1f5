"""How a joint is put together, in the order of the hands: trade practice, common practice without a source."""

from collections.abc import Iterator
from math import ceil

from generator.compute.fit.result import OptionFit, PairFit
from generator.model.chain_parts import Link
from generator.model.dataset import Dataset, Part
from generator.model.tools_and_bikes import Bike
from generator.render.base.lengths import shown_length
from generator.rules.rooms import bikes_with

EASE_BACK = (
    "A plate that went too far: with the clip off, set the press on the pin tips, and ease it back a little at a time; "
    "then measure over both plates again. A plate that has moved twice has lost its grip: take a new link."
)
# no clip is on it yet, and once its pins are flared it is not moved any more
EASE_BACK_RIVETED = EASE_BACK.replace("with the clip off", "before the pins are flared")
STOP_RIDING = "Do not ride when a pressed plate moves, or a slide-on plate moves more than its neighbours."


def fitting_steps(dataset: Dataset, fit: PairFit) -> tuple[str, ...]:
    """Nothing where the parts must not go together."""
    if fit.option is None or fit.word == "no-go":
        return ()
    link = dataset.links[fit.link]
    return (
        *_between(fit.option),
        *_plate(link, fit.option),
        *_closing(link, fit),
        *_looked(dataset, fit),
    )


def _between(option: OptionFit) -> Iterator[str]:
    if option.seals == "fitted":
        yield "Two seals on the pins before the link goes in, two after it."
    elif option.seals == "packed":
        yield "Washers on the pins where the seals would be, the same number on each."
    yield (
        "Grease the pins. Join it on the rear sprocket, with the clip on the side you can see."
        if (option.closure == "clip")
        else "Grease the pins. Join it on the rear sprocket."
    )


def _plate(link: Part[Link], option: OptionFit) -> Iterator[str]:
    if link.record.plate_fit == "slip":
        yield "Slide the plate on by hand."
    elif link.record.plate_fit == "press-to-shoulder":
        yield "Press the plate straight until its shoulder stops it."
    elif option.seat == "clip":
        yield "Press the plate in small bites, both pins alike, only until the grooves are clear: it belongs against its clip."
    elif option.closure == "clip":
        yield "Press the plate in small bites, both pins alike, and stop at the width above, when the groove is clear."
    else:
        yield "Press the plate in small bites, both pins alike, and stop at the width above."


def _closing(link: Part[Link], fit: PairFit) -> Iterator[str]:
    option = fit.option
    assert option is not None
    if option.spacer:
        yield spacer_words(option.spacer)
    if option.closure == "clip":
        yield "Clip into both grooves with pliers, its closed end leading the way the chain runs."
    elif option.closure == "screw":
        yield "Turn its nuts home evenly, as its maker says, and stake them."
    elif link.record.pin_kind == "solid":
        yield "Peen the solid pins: hammer and a heavy hammer held behind, not a riveter for hollow pins. A crack means a new link."
    else:
        yield f"Flare the pins with the riveter {flare_words(fit)}; a crack means a new link."


def spacer_words(spacer: str) -> str:
    """Of washers by the label of their bag."""
    return f"A washer of {spacer} on each pin, under the clip."


def flare_words(fit: PairFit) -> str:
    """How wide, over the flare: the maker's figure first, then what manuals of the size ask for, and the least."""
    flare = fit.flare
    if flare is None or flare.target is None:
        return "to the maker's width over the flare"
    low, high = shown_length(flare.target.low), shown_length(flare.target.high)
    width = f"{low.mm.removesuffix(' mm')} to {high.mm} ({low.inch.removesuffix(' in')} to {high.inch})"
    least = f", never under {shown_length(flare.least.high).mm}" if flare.least else ""
    return f"to the maker's width over the flare; unknown, to {width}{least}"


def ease_back(dataset: Dataset, fit: PairFit) -> str:
    """Of a plate that is pressed and that no shoulder stops; nothing where the parts must not go together."""
    link = dataset.links[fit.link].record
    if fit.option is None or fit.word == "no-go" or link.plate_fit != "press":
        return ""
    return EASE_BACK if link.closure == "clip" else EASE_BACK_RIVETED


def _looked(dataset: Dataset, fit: PairFit) -> Iterator[str]:
    turns = {turns_of_the_wheel(bike) for bike in bikes_with(dataset, fit.chain)}
    many = f" ({max(turns)} turns of the wheel)" if turns else ""
    yield f"By hand, turn the wheel until the whole chain has gone round{many}: the joint bends freely and touches nothing."
    yield STOP_RIDING


def turns_of_the_wheel(bike: Part[Bike]) -> int:
    """That bring the whole chain round once: pitches by rear teeth, rounded up."""
    return ceil(bike.record.pitches / max(1, bike.record.rear_teeth))
