"""Do a chain and a link belong together by make: out of one box, or of one type by the letters stamped on both?"""

from generator.model.chain_parts import Chain, Clip, Link
from generator.model.dataset import Dataset, Part

# once fitted a link still has the lengths it was made with
AS_MADE = ("new", "fitted-once", "fitted-twice")


def came_with(chain: Part[Chain], link: Part[Link]) -> bool:
    return link.record.came_with == chain.id


def same_type(chain: Part[Chain], link: Part[Link]) -> bool:
    letters = chain.record.letters
    return (
        letters is not None
        and link.record.letters is not None
        and letters.split() == link.record.letters.split()
        and chain.record.size_code == link.record.size_code
    )


def by_make(chain: Part[Chain], link: Part[Link]) -> bool:
    """Was the link made for just this chain?"""
    return link.record.condition in AS_MADE and (came_with(chain, link) or same_type(chain, link))


def in_use(chain: Part[Chain], link: Part[Link]) -> bool:
    """Does the chain run with this joint now?"""
    return bool(chain.record.in_use) and chain.record.own_link == link.id


def own_packet_new(dataset: Dataset, link: Part[Link], clip: str | None) -> bool:
    """Is this the clip out of the packet of the link, both new?"""
    if link.record.condition != "new" or link.record.clip == "none":
        return False
    if clip is None:
        return link.record.clip in (None, "unknown")
    known = dataset.clips.get(clip)
    return link.record.clip == clip and known is not None and as_new(known)


def as_new(clip: Part[Clip]) -> bool:
    """Whatever it is called, a clip that is thinner than it was is not new."""
    thin, new = clip.dims.get("thickness"), clip.dims.get("thickness_new")
    worn = thin is not None and new is not None and thin.high < new.low
    return clip.record.history in ("new", "never-off") and not worn
