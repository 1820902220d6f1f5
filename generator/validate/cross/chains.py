"""What cannot be true of a chain by itself."""

from collections.abc import Iterator
from fractions import Fraction

from generator.model.chain_parts import Chain
from generator.problems import Problem
from generator.validate.cross.compare import in_mm, must_fit, places
from generator.validate.draft import Draft

MOST_ELONGATION_PERCENT = 8  # a chain climbs over its sprocket teeth long before


def bush_ends_inside_plates(chain: Draft[Chain]) -> Iterator[Problem]:
    """Bushes stand proud of the inner plates, so b2b is never less than b2p."""
    words = "over the inner plates {} is more than {} over the bush ends"
    yield from must_fit(chain, "C401", "over_inner_plates", "over_bush_ends", words, "measure both again")


def outer_plates_inside_inner(chain: Draft[Chain]) -> Iterator[Problem]:
    """The outer plates run outside the inner ones: b3 is never less than b2p."""
    words = "over the inner plates {} is more than {} between the outer plates"
    yield from must_fit(chain, "C402", "over_inner_plates", "between_outer_plates", words)


def outer_plates_inside_bushes(chain: Draft[Chain]) -> Iterator[Problem]:
    """The bush ends turn between the outer plates: b3 is never less than b2b."""
    words = "over the bush ends {} is more than {} between the outer plates"
    yield from must_fit(chain, "C403", "over_bush_ends", "between_outer_plates", words)


def plates_wider_than_pins(chain: Draft[Chain]) -> Iterator[Problem]:
    """A riveted pin holds both outer plates, so b3 is less than b4."""
    words = "between the outer plates {} is more than {} over the riveted pins"
    yield from must_fit(chain, "C404", "between_outer_plates", "over_riveted_pins", words)


def plates_stand_over_pins(chain: Draft[Chain]) -> Iterator[Problem]:
    """The heads stand outside the outer plates."""
    words = "over the outer plates {} is more than {} over the riveted pins"
    yield from must_fit(chain, "C405", "over_outer_plates", "over_riveted_pins", words)


def inner_width_beyond_plates(chain: Draft[Chain]) -> Iterator[Problem]:
    """b1 is the room between the plates that b2p is measured over."""
    words = "between the inner plates {} is more than {} over them"
    yield from must_fit(chain, "C406", "inner_width", "over_inner_plates", words)


def bore_beyond_roller(chain: Draft[Chain]) -> Iterator[Problem]:
    """The bush sits inside the roller."""
    words = "bush bore {} is more than {} over the roller"
    yield from must_fit(chain, "C407", "bush_bore", "roller_diameter", words)


def plate_gap_read_two_ways(chain: Draft[Chain]) -> Iterator[Problem]:
    """b3 read directly and b3 = over outer plates - 2 plates must have something in common."""
    over, plate = chain.dims.get("over_outer_plates"), chain.dims.get("plate_thickness")
    direct = chain.dims.get("between_outer_plates")
    if over is None or plate is None or direct is None or not chain.has("between_outer_plates"):
        return
    derived = over - plate - plate
    if derived.meet(direct) is None:
        message = f"{in_mm(direct.nominal)} read directly, {in_mm(derived.nominal)} by the outer plates"
        related = places(chain, "over_outer_plates", "plate_thickness")
        yield chain.problem("C408", message, "between_outer_plates", related=related)


def plain_with_seals(chain: Draft[Chain]) -> Iterator[Problem]:
    """A plain chain has no seals."""
    if chain.record.kind != "plain":
        return
    related = places(chain, "kind")
    if chain.record.seal not in ("none", "unknown"):
        yield chain.problem("C409", f"a plain chain with {chain.record.seal} seals", "seal", related=related)
    elif chain.has("seal_thickness"):
        yield chain.problem("C409", "a plain chain with a seal thickness", "seal_thickness", related=related)


def sealed_without_seals(chain: Draft[Chain]) -> Iterator[Problem]:
    """A sealed chain has seals."""
    if chain.record.kind == "sealed" and chain.record.seal == "none":
        fix = "write kind: plain, or the section of its seals"
        yield chain.problem(
            "C410", "a sealed chain without seals", "seal", fix=fix, related=places(chain, "kind")
        )


def elongation_out_of_reason(chain: Draft[Chain]) -> Iterator[Problem]:
    """Elongation is in per cent; ten times too much is a slip."""
    text = chain.record.elongation
    if text not in (None, "unknown") and Fraction(text) > MOST_ELONGATION_PERCENT:
        message = f"an elongation of {text} per cent: no chain runs that long"
        yield chain.problem("C411", message, "elongation", fix="write per cent, such as 0.8")


CHAIN_RULES = (
    bush_ends_inside_plates,
    outer_plates_inside_inner,
    outer_plates_inside_bushes,
    plates_wider_than_pins,
    plates_stand_over_pins,
    inner_width_beyond_plates,
    bore_beyond_roller,
    plate_gap_read_two_ways,
    plain_with_seals,
    sealed_without_seals,
    elongation_out_of_reason,
)
# a strip is a piece of chain; what a rule asks for and a strip does not have is simply not known
STRIP_RULES = (
    bush_ends_inside_plates,
    outer_plates_inside_inner,
    outer_plates_inside_bushes,
    inner_width_beyond_plates,
    bore_beyond_roller,
    plate_gap_read_two_ways,
    elongation_out_of_reason,
)
