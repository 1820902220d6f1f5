"""How thick a clip is where it bears: from its thinnest place to what it was when new."""

from dataclasses import replace

from generator.model.chain_parts import Clip
from generator.model.dataset import Part
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.reading import Reading
from generator.rules.joined import ONE, Behind, of_part

# a clip worn below half of what it was is no-go whatever it measures, so that it was never thicker than twice what is
# left; the bow of a clip counts to so much, and one that is bowed more than so much is bent (common practice, no source)
MOST_OF_WHAT_IS_LEFT = 2
MOST_BOW = NM_PER_MM * 15 // 100


def stacked(clip: Part[Clip]) -> Quantity | None:
    """In a stack thin is the kind side, so that the thinnest place alone must not speak there, and a reading that makes
    it thicker than new counts as read."""
    thin = clip.dims.get("thickness")
    if thin is None:
        return None
    widest = clip.places.get("thickness", thin)
    new = clip.dims.get("thickness_new")
    if new is not None:
        high = max(new.high, thin.high)
    elif clip.record.history in ("new", "never-off"):
        high = max(widest.high, thin.high)
    else:
        high = MOST_OF_WHAT_IS_LEFT * thin.high
    return replace(thin, low=min(thin.low, widest.low), high=high, nominal=min(thin.nominal, high))


def behind_stacked(clip: Part[Clip]) -> tuple[Behind, ...]:
    """Its thickness; of a used clip whose thickness when new nobody read, that too is a reading that is open."""
    read = of_part(clip, "thickness")
    if read.quantity is None or "thickness_new" in clip.dims or clip.record.history in ("new", "never-off"):
        return (read,)
    return read, Behind(Reading("clip", clip.id, "thickness_new"), ONE, stacked(clip))


def counted_bow(clip: Part[Clip]) -> Quantity:
    """What was not read may be anything up to the most that counts."""
    bow = clip.dims.get("bow")
    if bow is None:
        return Quantity(0, 0, MOST_BOW, "common-practice")
    low, nominal, high = (min(end, MOST_BOW) for end in (bow.low, bow.nominal, bow.high))
    return replace(bow, low=low, nominal=nominal, high=high)
