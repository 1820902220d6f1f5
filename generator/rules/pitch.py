"""The nominal pitch of a chain or a link, and the readings behind it."""

from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.reading import Reading
from generator.rules.joined import ONE, Behind, Joined, of_part

# a reading so near to what a size code says is of that size; other sizes are further off
NEAR = {"pitch": NM_PER_MM, "roller_diameter": NM_PER_MM * 3 // 10}


def pitch_of(kind: str, joined: Joined) -> Quantity | None:
    """Of a link what was read between its pins, of both the one that the size code stands for; where that is not
    known, a chain has the pitch it was read to have, or that of the sizes with rollers like its own."""
    sizes = joined.dataset.shelf.sizes
    size = sizes.get(_size_code(kind, joined))
    if kind == "link" and "pin_spacing" in joined.link.dims:
        return joined.link.dims["pin_spacing"]
    if size is not None:
        return size.dims["pitch"]
    return None if kind == "link" else _pitch_of_unknown_size(joined)


def _pitch_of_unknown_size(joined: Joined) -> Quantity | None:
    """A worn chain reads long, so that a reading only chooses among the nominal pitches."""
    sizes, dims = joined.dataset.shelf.sizes.values(), joined.chain.dims
    for field in ("pitch", "roller_diameter"):
        if field in dims:
            near = [
                size.dims["pitch"]
                for size in sizes
                if field in size.dims and abs(size.dims[field].nominal - dims[field].nominal) <= NEAR[field]
            ]
            if near:
                ends = [pitch.nominal for pitch in near]
                return Quantity(min(ends), ends[0], max(ends), "measured")
    return None


def _size_code(kind: str, joined: Joined) -> str:
    return (joined.chain if kind == "chain" else joined.link).record.size_code


def behind_pitch(kind: str, joined: Joined) -> list[Behind]:
    """The size code, or what is read where that is not known or overruled."""
    found = [Behind(Reading("size", _size_code(kind, joined), "pitch"), ONE, pitch_of(kind, joined))]
    if _size_code(kind, joined) not in joined.dataset.shelf.sizes or "pin_spacing" in joined.link.dims:
        found = [of_part(joined.link, "pin_spacing") if kind == "link" else of_part(joined.chain, "pitch")]
    return found
