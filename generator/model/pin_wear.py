"""What condition a link is in, its pins measured or only looked at.

Goes in: a link.  Comes out: one word of a closed list.
"""

from generator.model.chain_parts import Link
from generator.model.dataset import Part
from generator.model.quantity import NM_PER_MM

# from here on a step on a pin is wear (common practice, no source)
WORN_PIN_STEP = NM_PER_MM // 10
SOUND = ("new", "fitted-once")


def link_condition(link: Part[Link]) -> str:
    """As written down; of a link called sound the step read on its pins knows better."""
    step = link.dims.get("pin_step")
    if step is None or step.high < WORN_PIN_STEP or link.record.condition not in SOUND:
        return link.record.condition
    return "worn" if step.low >= WORN_PIN_STEP else "perhaps-worn"
