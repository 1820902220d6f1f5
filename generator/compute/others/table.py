"""Every meeting of a club's parts other than a link on a chain."""

from generator.compute.fit.plans import Plans
from generator.compute.others.clip_links import clip_link_fits
from generator.compute.others.neighbours import neighbour_fits
from generator.compute.others.plates import plate_fits
from generator.compute.others.result import OtherFits
from generator.compute.others.seals import own_sets_only, seal_fits
from generator.compute.others.strips import strip_fits
from generator.compute.others.tools import key_fits, tool_fits
from generator.model.dataset import Dataset


def other_fits(dataset: Dataset, plans: Plans | None = None) -> OtherFits:
    strips, clip_links = strip_fits(dataset), clip_link_fits(dataset)
    return OtherFits(
        clip_links=clip_links,
        seals=seal_fits(dataset),
        plates=plate_fits(dataset),
        strips=strips,
        neighbours=neighbour_fits(dataset, strips, clip_links, plans),
        tools=tool_fits(dataset),
        keys=key_fits(dataset),
        own_seals_only=own_sets_only(dataset),
    )
