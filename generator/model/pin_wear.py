"""What condition a link is in, its pins measured or only looked at."""

from generator.model.chain_parts import Link
from generator.model.dataset import Part, Shelf

SOUND = ("new", "fitted-once")


def link_condition(link: Part[Link], shelf: Shelf) -> str:
    """As written down; of a link called sound the step read on its pins knows better."""
    step, worn = link.dims.get("pin_step"), shelf.allowances["pin-step"].nm
    if step is None or step.high < worn or link.record.condition not in SOUND:
        return link.record.condition
    return "worn" if step.low >= worn else "perhaps-worn"
