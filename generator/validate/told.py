"""Dimensions that come from another record: a link held against a link, a chain's wear from the log or a look."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from generator.model.chain_parts import Chain, Clip, Link
from generator.model.dataset import Shelf
from generator.model.elongation import elongation_of
from generator.model.quantity import PPM_OF_PERCENT, Quantity, outward, weakest
from generator.model.written import Written
from generator.validate.draft import ClubDraft, Draft
from generator.validate.wear_log import LoggedRow

# what a fingernail over an edge, or two pin tips side by side, can tell apart: the allowance of each
NAIL, SIDE_BY_SIDE = "nail", "side-by-side"
COMPARABLE: Mapping[str, str] = {
    "side_plate_thickness": NAIL,
    "fixed_plate_thickness": NAIL,
    "side_plate_height": NAIL,
    "pin_length": SIDE_BY_SIDE,
    "pin_reach": SIDE_BY_SIDE,
    "clip_stop": SIDE_BY_SIDE,
    "head_stand_out": SIDE_BY_SIDE,
}


def with_told(club: ClubDraft, log: Sequence[LoggedRow]) -> ClubDraft:
    """The club with what its records tell of each other."""
    chains = {i: _with_wear(draft, club, log) for i, draft in club.kinds["chain"].items()}
    strips = {i: _with_written_wear(draft, club.shelf) for i, draft in club.kinds["strip"].items()}
    clips = {i: _with_felt_wear(draft, club.shelf) for i, draft in club.kinds["clip"].items()}
    kinds = {**club.kinds, "chain": chains, "strip": strips, "clip": clips}
    links = club.kinds["link"]
    return replace(
        club,
        kinds={
            **kinds,
            "link": {i: _with_comparison(draft, links, club.shelf) for i, draft in links.items()},
        },
    )


def _with_comparison(draft: Draft[Link], links: Mapping[str, Draft[Link]], shelf: Shelf) -> Draft[Link]:
    """What was held against another link, as a difference and, where the other was read, as a length."""
    told = compared_fields(draft)
    if not told:
        return draft
    differences = {
        name: _difference(shelf, name, written) for name, written in told.items() if name in COMPARABLE
    }
    other = links.get(draft.record.compared_with or "")
    read = {} if other is None or other.id == draft.id else other.dims
    added = {name: _beside(read[name], by) for name, by in differences.items() if name in read}
    return replace(draft, compared=differences, dims={**draft.dims, **added})


def compared_fields(draft: Draft[Any]) -> dict[str, Written]:
    """The fields that say how a part differs from another."""
    values = ((name, getattr(draft.record, name)) for name in type(draft.record).model_fields)
    return {name: value for name, value in values if isinstance(value, Written) and value.form == "compared"}


def _difference(shelf: Shelf, name: str, written: Written) -> Quantity:
    half = max(Fraction(shelf.allowances[COMPARABLE[name]].nm), written.plus_minus or Fraction(0))
    by = written.readings[0]
    return Quantity(*outward(by - half, by, by + half), "measured", None, written.text)


def _beside(read: Quantity, by: Quantity) -> Quantity:
    found = read + by
    return replace(found, low=max(found.low, 0), nominal=max(found.nominal, 0), text=by.text)


def _with_wear(draft: Draft[Chain], club: ClubDraft, log: Sequence[LoggedRow]) -> Draft[Chain]:
    """Its elongation: the newest readings of the log, else what is written, else what a look leaves open."""
    size = club.shelf.sizes.get(draft.record.size_code or "")
    pitch = size.dims["pitch"].nominal if size is not None else None
    found = (
        logged_wear(draft.id, pitch, log)
        or written_wear(draft, club.shelf)
        or look_at_wear(draft.record, club.shelf)
    )
    dims = draft.dims if found is None else {**draft.dims, "elongation": found}
    return replace(draft, dims=_with_worn_bore(draft.record, dims, pitch))


def _with_worn_bore(record: Chain, dims: Mapping[str, Quantity], pitch: int | None) -> Mapping[str, Quantity]:
    """A gauge that does not go into a worn bush has felt it across the pull only: along it the bore may be wider
    by all the wear of a pitch."""
    bore, written = dims.get("bush_bore"), record.bush_bore
    if bore is None or written is None or written.form != "goes" or pitch is None:
        return dims
    most = dims["elongation"].high if "elongation" in dims else 4 * PPM_OF_PERCENT
    return {**dims, "bush_bore": replace(bore, high=bore.high - (-pitch * most // 1_000_000))}


def _with_felt_wear(draft: Draft[Clip], shelf: Shelf) -> Draft[Clip]:
    """Where no step is felt a clip was thicker when new by no more than a fingernail misses on either face."""
    thin = draft.dims.get("thickness")
    if draft.record.worn_step is not False or thin is None or "thickness_new" in draft.dims:
        return draft
    felt = replace(
        thin, high=thin.high + 2 * shelf.allowances[NAIL].nm, evidence="stated", text="a look: no step"
    )
    return replace(draft, dims={**draft.dims, "thickness_new": felt})


def _with_written_wear(draft: Draft[Any], shelf: Shelf) -> Draft[Any]:
    found = written_wear(draft, shelf)
    return draft if found is None else replace(draft, dims={**draft.dims, "elongation": found})


def written_wear(draft: Draft[Any], shelf: Shelf) -> Quantity | None:
    """Elongation as the record says it, in parts per million."""
    text = draft.record.elongation
    if text in (None, "unknown"):
        return None
    middle = Fraction(text) * PPM_OF_PERCENT
    within = shelf.allowances["worn-written"].ppm
    low, nominal, high = outward(middle - within, middle, middle + within)
    return Quantity(max(low, 0), nominal, high, "measured", None, f"{text} %")


def logged_wear(chain: str, pitch: int | None, log: Sequence[LoggedRow]) -> Quantity | None:
    """Elongation at the worst place of the newest day, in parts per million."""
    rows = [row for row in log if row.record.chain == chain and row.record.pitches]
    if not rows or pitch is None:
        return None
    newest = max(row.record.date for row in rows)
    places = list(_places([row for row in rows if row.record.date == newest], pitch))
    return Quantity(
        max(0, *(each.low for each in places), 0),
        max(0, *(each.nominal for each in places), 0),
        max(0, *(each.high for each in places), 0),
        weakest(each.evidence for each in places),
        None,
        f"wear log, {newest.isoformat()}",
    )


def _places(rows: Sequence[LoggedRow], pitch: int) -> Iterator[Quantity]:
    for row in rows:
        found = elongation_of(row.inside, row.outside, row.record.pitches, pitch)
        ends = (end * PPM_OF_PERCENT for end in (found.low, found.nominal, found.high))
        yield Quantity(*outward(*ends), weakest((row.inside.evidence, row.outside.evidence)))


def look_at_wear(record: Chain, shelf: Shelf) -> Quantity | None:
    """What the pull-off at the rear sprocket leaves open."""
    seen = shelf.allowances.get(f"pull-off-{record.pull_off}")
    if seen is None:
        return None
    low, high = seen.ppm, seen.to_ppm
    return Quantity(low, (low + high) // 2, high, "common-practice", None, f"a look: {record.pull_off}")
