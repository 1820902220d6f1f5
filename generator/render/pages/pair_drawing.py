"""The parts of a pair as the section drawing wants them.

Goes in: a dataset and a fit.  Comes out: the drawing of its chosen way, as SVG.
"""

from collections.abc import Iterator, Mapping
from math import ceil, floor

from markupsafe import Markup

from generator.compute.fit.result import CheckFit, EdgeFit, OptionFit, PairFit
from generator.model.chain_parts import Clip, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.render.base.lengths import shown_length, shown_span
from generator.render.base.verdicts import range_in_words
from generator.render.drawings.section import section_drawing
from generator.render.drawings.section_geometry import faces_of
from generator.render.drawings.section_input import Mark, Seals, SectionDimensions, quantities
from generator.render.drawings.section_lengths import WORDS, concerned
from generator.render.pages.facts import Fact
from generator.render.say.limits import edges_of_rung
from generator.render.say.said import Said
from generator.rules.hold import hold_of
from generator.rules.rooms import ROOM, least_room_read

CHAIN_FIELDS = (
    "bush_bore",
    "over_inner_plates",
    "over_bush_ends",
    "between_outer_plates",
    "over_riveted_pins",
    "plate_thickness",
)
LINK_FIELDS = (
    "pin_diameter",
    "pin_reach",
    "pin_length",
    "shoulder_depth",
    "groove_width",
    "groove_diameter",
    "side_plate_thickness",
)


# what a dimension is called in the drawing, where that differs from its field
NAMES: Mapping[str, Mapping[str, str]] = {
    "chain": {"over_outer_plates": "between_outer_plates"},
    "clip": {"thickness": "clip_thickness"},
    "seal": {"thickness": "seal_thickness"},
    "bike": {ROOM: "bike_clearance"},
}
USUAL = frozenset(
    (
        "between_outer_plates",
        "over_bush_ends",
        "pin_reach",
        "groove_width",
        "side_plate_thickness",
        "clip_thickness",
    )
)

# the clearances a reader can see in the cut; the others stand in the table of checks
SEEN_IN_THE_CUT = frozenset(
    (
        "pin-entry",
        "clip-goes-on",
        "clip-goes-on-without-seals",
        "backing",
        "float",
        "shoulder-place",
        "clip-over-shoulder",
        "bush-stop",
        "tip-land",
        "squeeze",
        "clip-entry",
        "stick-out",
        "stick-out-unread",
        "flare-stand-out",
        "hollow-depth",
    )
)

# the same length held against a room that was read and one that was not
ONE_LENGTH = ("stick-out", "stick-out-unread")


def pair_drawing(dataset: Dataset, fit: PairFit, brief: bool = False) -> Markup:
    """Checks that have a place in the cut are marked; the deciding one is enlarged, and alone where it is brief."""
    deciding = fit.option.deciding if fit.option else None
    marks = tuple(mark for mark in _marks(dataset, fit) if not brief or mark.check_id == deciding)
    title = f"Section through one pin: link {fit.link} on chain {fit.chain}"
    return section_drawing(
        section_dimensions(dataset, fit), marks, deciding, "", title, _lettered(fit) if brief else None
    )


def drawn_lengths(dataset: Dataset, fit: PairFit) -> tuple[Fact, ...]:
    """The lengths of the drawing in both units, for whoever cannot turn the switch or see the picture."""
    dims = section_dimensions(dataset, fit)
    found, places = quantities(dims), concerned(faces_of(dims))
    known = ((words, found[name]) for name, words in WORDS.items() if name in places)
    read = (Fact(words, _length_said(length)) for words, length in known if length is not None)
    deciding = fit.option.deciding if fit.option else None
    enlarged = (mark for mark in _marks(dataset, fit) if mark.check_id == deciding)
    return (*read, *(fact for mark in enlarged for fact in _clearance_facts(mark)))


def _clearance_facts(mark: Mark) -> Iterator[Fact]:
    """What the enlarged clearance could be and what is wanted of it, as its bars say."""
    if mark.low is None or mark.high is None:
        return
    yield Fact(f"{mark.label}: could be", (shown_span(mark.low, mark.high),))
    low, high = mark.wanted_low, mark.wanted_high
    if low is not None and high is not None:
        yield Fact(f"{mark.label}: proper", (shown_span(low, high),))
    elif low is not None:
        yield Fact(f"{mark.label}: proper", ("at least ", shown_length(low)))
    elif high is not None:
        yield Fact(f"{mark.label}: proper", ("at most ", shown_length(high)))


def _length_said(length: Quantity) -> Said:
    """One length where it was read, both ends where it comes from elsewhere; as the drawing says it."""
    if length.evidence in ("measured", "stated"):
        return (shown_length(length.nominal),)
    return (shown_span(length.low, length.high), ", not measured")


def _lettered(fit: PairFit) -> frozenset[str]:
    """The readings the deciding check rests on, or where it rests on none those of the usual one."""
    rests_on = fit.option.deciding_check.rests_on if fit.option else ()
    names = (NAMES.get(r.kind, {}).get(r.field, r.field) for r in rests_on)
    found = frozenset(names) or USUAL
    return found | {"washer_thickness"} if "seal_thickness" in found else found


def section_dimensions(dataset: Dataset, fit: PairFit) -> SectionDimensions:
    """As chosen; a pair that is refused is drawn with the link's own clip and seals."""
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    option = fit.option
    clip = dataset.clips.get((option.clip if option else link.record.clip) or "")
    seals = _seals(dataset, fit, link)
    lining = dataset.seals.get((option.seal_set if option else link.record.seals) or "")
    thickness = lining.dims.get("thickness") if lining else None
    own = dataset.seals.get(link.record.seals or "")
    return SectionDimensions(
        **_some(chain.dims, CHAIN_FIELDS),
        **_some(link.dims, LINK_FIELDS),
        clip_stop=_clip_stop(dataset, link, clip),
        clip_thickness=clip.dims.get("thickness") if clip else None,
        seal_thickness=thickness if seals == "fitted" else own.dims.get("thickness") if own else None,
        washer_thickness=thickness if seals == "packed" else None,
        bike_clearance=least_room_read(dataset, chain.id),
        plate_fit=link.record.plate_fit,
        closure=link.record.closure,
        seals=seals,
    )


def _some(dims: Mapping[str, Quantity], fields: tuple[str, ...]) -> dict[str, Quantity | None]:
    return {field: dims.get(field) for field in fields}


def _seals(dataset: Dataset, fit: PairFit, link: Part[Link]) -> Seals:
    if fit.option is None:
        return "fitted" if link.record.seals in dataset.seals else "none"
    words: Mapping[str, Seals] = {"fitted": "fitted", "left-out": "left-out", "packed": "packed"}
    return words.get(fit.option.seals, "none")


def _clip_stop(dataset: Dataset, link: Part[Link], clip: Part[Clip] | None) -> Quantity | None:
    """For the clip that is drawn, where the reach of the pin was not read itself."""
    return None if "pin_reach" in link.dims else hold_of(dataset, link, clip)


def _marks(dataset: Dataset, fit: PairFit) -> Iterator[Mark]:
    if fit.option is None:
        return
    for check in _checks_drawn(fit.option):
        shown = check.id in SEEN_IN_THE_CUT or check.id == fit.option.deciding
        if shown and check.category is None and check.unit == "mm":
            yield _mark(check, dataset.shelf.joint_rules[check.rule_id].title)


def _checks_drawn(option: OptionFit) -> tuple[CheckFit, ...]:
    twice = {check.id for check in option.checks if check.id in ONE_LENGTH}
    kept = next((id_ for id_ in (option.deciding, *ONE_LENGTH) if id_ in twice), None)
    return tuple(check for check in option.checks if check.id not in twice or check.id == kept)


def _mark(check: CheckFit, title: str) -> Mark:
    span = check.clearance
    proper = {edge.side: edge for edge in edges_of_rung(check, 0)}
    return Mark(
        check_id=check.id,
        label=title,
        rung=range_in_words(check.best, check.worst),
        low=floor(span.low) if span else None,
        nominal=round(span.nominal) if span else None,
        high=ceil(span.high) if span else None,
        wanted_low=_at(proper.get("low")),
        wanted_high=_at(proper.get("high")),
    )


def _at(edge: EdgeFit | None) -> int | None:
    return None if edge is None or edge.at is None else round(edge.at)
