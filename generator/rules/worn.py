"""What the wear of a chain does to the bores of its bushes: half of what a pitch has grown by."""

from dataclasses import replace

from generator.model.chain_parts import Chain, Strip
from generator.model.dataset import Dataset, Part, Shelf
from generator.model.quantity import Quantity
from generator.rules.joined import Joined

PPM = 1_000_000


def elongation(chain: Part[Chain] | Part[Strip], shelf: Shelf) -> Quantity:
    """In parts per million; of a chain or strip nobody has measured anything up to the most that runs."""
    return chain.dims.get("elongation") or Quantity(0, 0, shelf.allowances["worn-most"].ppm, "unknown")


def pitch_nm(dataset: Dataset, chain: Part[Chain]) -> int:
    size = dataset.shelf.sizes.get(chain.record.size_code)
    return size.dims["pitch"].nominal if size is not None else 0


def read_as_worn(chain: Part[Chain], dataset: Dataset) -> bool:
    """Was the bore read on this chain as it is now?  A reading from before the newest line of the wear log is older
    than the wear."""
    bore = chain.dims.get("bush_bore")
    if bore is None or bore.evidence != "measured":
        return False
    logged = [reading.on for reading in dataset.wear_log if reading.chain == chain.id]
    read_on = chain.record.measured_on
    return not logged or read_on is None or read_on >= max(logged)


def allowed_wear(joined: Joined) -> Quantity:
    """So much more pin play a worn chain is allowed, the same for every joint on it: none where it is not known."""
    chain, dataset = joined.chain, joined.dataset
    if not read_as_worn(chain, dataset) or "elongation" not in chain.dims:
        return Quantity(0, 0, 0)
    half = elongation(chain, dataset.shelf).low * pitch_nm(dataset, chain) // (2 * PPM)
    return Quantity(half, half, half, chain.dims["elongation"].evidence)


def bore(joined: Joined) -> Quantity | None:
    """A bore that was not read as it is now has grown since, by up to all that a pitch has."""
    chain = joined.chain
    found = chain.dims.get("bush_bore")
    if found is None or read_as_worn(chain, joined.dataset):
        return found
    grown = -(-elongation(chain, joined.dataset.shelf).high * pitch_nm(joined.dataset, chain) // PPM)
    return replace(found, high=found.high + grown)
