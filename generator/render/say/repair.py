"""What is said of repairs and plans: reasons, what lowered a verdict, length and axle, parts by their labels."""

from collections.abc import Mapping

from generator.compute.geometry.axle import AxleMove
from generator.compute.repair.planner import all_parts
from generator.compute.repair.result import Cap, Lack, Range, Repair
from generator.compute.spares.next_item import MENDS
from generator.compute.spares.result import NextItem
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.render.base.lengths import shown_length
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.say.names import listed, parts_of, small_named
from generator.render.say.rungs import not_tested
from generator.render.say.said import Said, capital

CAPS: Mapping[Cap, str] = {
    "untried": "proper by numbers only; dry-fit it",
    "two-clip-joints": "two clip joints in one loop",
    "many-joints": "more than three connecting links in one loop",
    "missing-clip": "a joint of this loop has no clip",
    "worn": "the chain is beyond its limit",
    "worn-out": "the chain is more than 3 % long: start no ride",
    "failure": "it failed before and the cause was not found",
    "way": "no better by any joint",
    "tool": "the tool is made for another series",
    "tool-untested": "the tool is not tested on it",
    "axle-unread": "nobody has read how far the axle can go",
    "opened-once": "taken off once",
}
ROOMS = {
    "adjuster_forward": "the adjuster forward",
    "adjuster_back": "the adjuster back",
    "tyre_clearance": "the room in front of the tyre",
}
JOBS = {
    "open": "a breaker",
    "press": "a side-plate press",
    "close": "a riveter",
    "pliers": "narrow pliers",
    "file": "a flat file",
    "wire": "wire",
    "washers": "washers to crimp",
    "ties": "ties",
    "spanner": "axle and adjuster spanners",
    "strap": "a tow strap",
    "tip": "a spare tip for the breaker",
    "oil": "chain oil",
}
BEARERS = {"leader": "Leader", "sweep": "Sweep", "rider": "Rider", "van": "Van"}
AGES = {
    "look": "older than it keeps without a look: bend it; a crack or a flat means new ones",
    "look-for-rust": "some years in the bag: rust, or lying unflat on glass, means a new one",
    "too-old": "too old to fit; counted as gone",
    "not-dated": "no date on the packet: write one on it",
}
# what is next most useful is a long list; so many of it are said
MOST_NEXT = 3
NO_DATE = "Write the date on the packets of seals"
GOALS = {
    "worse-than-last-resort": "weight not mended at all",
    "last-resort": "weight at last-resort",
    "get-home": "weight at get-home",
    "lesser-joints": "weight of joints below proper",
    "mass_mg": "carried by riders",
    "cost_cent": "to be bought",
    "van_mass_mg": "in the van",
    "order": "fixed order among equals",
}


def next_named(dataset: Dataset, each: NextItem) -> str:
    """In the middle of a sentence; a new strip by the chain it is made like."""
    if not each.pitches:
        return small_named(parts_of(dataset, each.kind)[each.id])
    what = (
        f"strip of {each.pitches} pitches"
        if each.pitches <= MENDS
        else f"whole chain ({each.pitches} pitches)"
    )
    return f"{what} made like {small_named(dataset.chains[each.id])}"


def next_does(each: NextItem) -> str:
    """What it would do, after its name."""
    bikes = listed(sorted({bike for bike, _ in (*each.mends, *each.betters)}))
    said = [f"mend {len(each.mends)} more"] if each.mends else []
    said += [f"mend {len(each.betters)} better"] if each.betters else []
    return f"{grams(each.mass)}; would {' and '.join(said)} on {bikes}"


def reason_text(dataset: Dataset, lack: Lack) -> str:
    """Why there is no repair, in a sentence without its point."""
    return dataset.shelf.mending.reasons[lack.code].says.format(about=_about(dataset, lack))


def reason_for_all(dataset: Dataset, lack: Lack | None, by_label: bool = False) -> str:
    """The same, where a reason about a bike itself is one for all bikes; empty without one.  On cards parts stand by
    their labels, as names may be long."""
    if lack is None:
        return ""
    about = "the bike" if lack.kind == "bike" else lack.about if by_label else _about(dataset, lack)
    return dataset.shelf.mending.reasons[lack.code].says.format(about=about)


def reason_fix(dataset: Dataset, lack: Lack) -> str:
    return dataset.shelf.mending.reasons[lack.code].fix


def _about(dataset: Dataset, lack: Lack) -> str:
    if lack.kind == "word":
        return JOBS.get(lack.about, lack.about)
    part = parts_of(dataset, lack.kind).get(lack.about)
    return f"{small_named(part)} ({part.id})" if part is not None else lack.about


def repair_verdict(found: Range) -> ShownVerdict:
    """What it counts as; the worst of an open one."""
    if found.counts == found.worst or found.worst == found.best:
        word = ("proper", "get-home", "last-resort", "no-go")[found.counts]
        return shown_verdict(word, found.counts, found.counts)
    return shown_verdict("measure-first", found.best, found.worst)


def untested_text(found: Range) -> str:
    return capital(not_tested(found.worst)) + "."


def why_text(repair: Repair) -> Said:
    """What lowers it, what it does to the length, in one or two sentences."""
    caps = [CAPS[cap] for cap in repair.range.caps if cap != "way"]
    first = f"{capital('; '.join(caps))}." if caps else ""
    return tuple(piece for piece in (first, *_length(repair)) if piece)


def _length(repair: Repair) -> Said:
    if repair.change == 0:
        return (" Same length.",) if repair.strip or repair.bags else ()
    move, way = repair.axle, "shorter" if repair.change < 0 else "longer"
    said = f" {abs(repair.change)} pitches {way}"
    if move is None:
        return (f"{said}.",)
    return (*_moves(said, move), _room(move))


def _moves(said: str, move: AxleMove) -> Said:
    """To whole millimetres: more than any adjuster shows."""
    direction = "forward" if move.high > 0 else "back"
    far = round(max(abs(move.low), abs(move.high)) / NM_PER_MM) * NM_PER_MM
    return (f"{said}: axle ", shown_length(far), f" {direction}")


def _room(move: AxleMove) -> str:
    if move.fits:
        return "; this bike has the room."
    return f"; nobody has read {ROOMS[move.short_of or 'adjuster_forward']}."


def parts_text(dataset: Dataset, repair: Repair) -> str:
    """All parts it takes by their names."""
    named = [
        f"{part.count} × {small_named(parts_of(dataset, part.kind)[part.id])}"
        if part.count > 1
        else small_named(parts_of(dataset, part.kind)[part.id])
        for part in all_parts(repair)
    ]
    return capital(listed(named)) if named else ""


def grams(milligrams: int) -> str:
    """Whole grams, rounded up: a scale shows no less."""
    return f"{-(-milligrams // 1000)} g"
