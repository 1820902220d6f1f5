"""How thick a clip is where it bears: from its thinnest place to what it was when new."""

from generator.model.chain_parts import Clip
from generator.model.dataset import Part, Shelf
from generator.model.quantity import PPM_OF_PERCENT, Quantity
from generator.model.reading import Reading
from generator.rules.joined import ONE, Behind, of_part


def stacked(clip: Part[Clip], shelf: Shelf) -> Quantity | None:
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
        high = thin.high * 100 * PPM_OF_PERCENT // shelf.allowances["clip-left"].ppm
    ends = (min(thin.low, widest.low), min(thin.nominal, high), high)
    return Quantity(*ends, thin.evidence, thin.source, thin.text)


def behind_stacked(clip: Part[Clip], shelf: Shelf) -> tuple[Behind, ...]:
    """Its thickness; of a used clip whose thickness when new nobody read, that too is a reading that is open."""
    read = of_part(clip, "thickness")
    if read.quantity is None or "thickness_new" in clip.dims or clip.record.history in ("new", "never-off"):
        return (read,)
    return read, Behind(Reading("clip", clip.id, "thickness_new"), ONE, stacked(clip, shelf))


def counted_bow(clip: Part[Clip], shelf: Shelf) -> Quantity:
    """What was not read may be anything up to the most that counts."""
    bow, most = clip.dims.get("bow"), shelf.allowances["clip-bow-counted"].nm
    if bow is None:
        return Quantity(0, 0, most, "common-practice")
    low, nominal, high = (min(end, most) for end in (bow.low, bow.nominal, bow.high))
    return Quantity(low, nominal, high, bow.evidence, bow.source, bow.text)
