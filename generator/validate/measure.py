"""Readings as written -> intervals: instrument, recipe and spread give each dimension its width."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import isqrt

from generator.model.club import Instrument
from generator.model.dataset import Shelf
from generator.model.quantity import NM_PER_MM, Evidence, Quantity, outward, weakest
from generator.model.record import Record
from generator.model.shipped import InstrumentKind, Recipe
from generator.model.written import Written

# GUM 4.2.3: standard uncertainty of a mean is s / sqrt(n); twice that is added (k = 2)
COVERAGE = 2
FEW_REPEATS = 5
UNREAD_SHANK = Fraction(NM_PER_MM, 10)
# faces an instrument can have; a gauge carries its step in the recipe
CONTACTS = ("outside", "inside", "depth")


def measure_record(
    kind: str, record: Record, instruments: Mapping[str, Instrument], shelf: Shelf
) -> dict[str, Quantity]:
    """Every known dimension of one record, with the derived width between outer plates.

    kind: the part kind that recipes name (`link` in `link.pin_reach`).
    """
    recipes = shelf.recipe_by_field
    instrument = instruments.get(getattr(record, "measured_with", None) or "")
    dims: dict[str, Quantity] = {}
    for name in type(record).model_fields:
        value = getattr(record, name)
        if isinstance(value, Written) and not value.is_unknown and value.form != "compared":
            recipe = recipes.get(f"{kind}.{name}")
            dims[name] = quantity_of(value, recipe, instrument, shelf, getattr(record, "source", None))
    return with_between_outer_plates(dims)


def places_of(
    kind: str, record: Record, instruments: Mapping[str, Instrument], shelf: Shelf
) -> dict[str, Quantity]:
    """Smallest to largest of every dimension of which several places were read and one counts."""
    recipes = shelf.recipe_by_field
    instrument = instruments.get(getattr(record, "measured_with", None) or "")
    found: dict[str, Quantity] = {}
    for name in type(record).model_fields:
        value, recipe = getattr(record, name), recipes.get(f"{kind}.{name}")
        if isinstance(value, Written) and recipe is not None and _has_places(value, recipe):
            few = replace(value, readings=(min(value.readings), max(value.readings)))
            of_mean = recipe.model_copy(update={"keep": "mean"})
            found[name] = quantity_of(few, of_mean, instrument, shelf, getattr(record, "source", None))
    return found


def _has_places(written: Written, recipe: Recipe) -> bool:
    return recipe.keep != "mean" and written.form == "read" and len(written.readings) > 1


def quantity_of(
    written: Written,
    recipe: Recipe | None,
    instrument: Instrument | None,
    shelf: Shelf,
    record_source: str | None = None,
) -> Quantity:
    """One value as an interval.  The author's own plus-minus replaces instrument and recipe;
    a value with neither instrument nor plus-minus gets the worst shipped instrument.

    It is as good as it is said to be, and no better than the source it cites; what was not measured no
    instrument has read."""
    source = written.source or record_source
    evidence = weakest((written.evidence or "measured", *_of_source(source, shelf)))
    minus, plus = _halves(written, recipe, instrument if evidence == "measured" else None, shelf)
    least, middle, most = kept(written, recipe.keep if recipe is not None else "mean")
    low, nominal, high = outward(least - minus, middle, most + plus)
    # a dimension cannot be negative, however wide its reading
    return Quantity(max(low, 0), max(nominal, 0), high, evidence, source, written.text)


def kept(written: Written, keep: str) -> tuple[Fraction, Fraction, Fraction]:
    """Least, middle and most that the readings themselves leave open, in nm.

    Of places the smallest or largest counts.  Fewer than five repeats may all have missed to one side, so that
    their spread is taken whole; five and more add twice the standard uncertainty of their mean (GUM type A)."""
    readings = written.readings
    mean = sum(readings, Fraction(0)) / len(readings)
    if written.form == "goes":
        return readings[0], mean, readings[1]
    if keep != "mean":
        one = min(readings) if keep == "smallest" else max(readings)
        return one, one, one
    if len(readings) < FEW_REPEATS:
        return min(readings), mean, max(readings)
    spread = spread_of_mean(readings)
    return mean - spread, mean, mean + spread


def _halves(
    written: Written, recipe: Recipe | None, instrument: Instrument | None, shelf: Shelf
) -> tuple[Fraction, Fraction]:
    """What is added below and above the readings, in nm."""
    if written.plus_minus is not None:
        return written.plus_minus, written.plus_minus
    if recipe is None:
        return Fraction(0), Fraction(0)
    extra = recipe.minus.readings[0], recipe.plus.readings[0]
    if written.form == "goes":
        # common practice, no source: a shank that nobody read is up to 0.10 thinner than it is marked; feelers
        # and whatever else is read by gauge carry the plus-minus of the recipe
        return extra if recipe.contact == "gauge" else (UNREAD_SHANK, Fraction(0))
    jaws = instrument_error(recipe.contact, instrument, shelf)
    return jaws + extra[0], jaws + extra[1]


def _of_source(citation: str | None, shelf: Shelf) -> tuple[Evidence, ...]:
    """The best evidence of the source that is cited, `id[place]`; nothing for one that is not known."""
    source = shelf.sources.get(citation.partition("[")[0]) if citation else None
    return (source.evidence,) if source is not None else ()


def half_of_one(written: Written, of: str, instrument: Instrument | None, shelf: Shelf) -> int:
    """The plus-minus of the first reading by itself, in nm; `of` is kind.field."""
    recipe = shelf.recipe_by_field.get(of)
    one = replace(written, readings=written.readings[:1])
    return quantity_of(one, recipe, instrument, shelf).half_width


def spread_of_mean(readings: tuple[Fraction, ...]) -> Fraction:
    """2 s / sqrt(n) in the readings' unit, rounded up to a whole one; 0 for one reading (GUM type A)."""
    count = len(readings)
    if count < 2:
        return Fraction(0)
    mean = sum(readings, Fraction(0)) / count
    variance_of_mean = sum(((r - mean) ** 2 for r in readings), Fraction(0)) / (count - 1) / count
    return Fraction(ceil_sqrt(COVERAGE**2 * variance_of_mean))


def ceil_sqrt(value: Fraction) -> int:
    """The least whole number whose square is at least `value`."""
    whole = -((-value.numerator) // value.denominator)
    root = isqrt(whole)
    return root if root * root == whole else root + 1


def instrument_error(contact: str, instrument: Instrument | None, shelf: Shelf) -> Fraction:
    """The permissible error of one instrument for outside, inside or depth readings; 0 for gauges,
    whose step stands in the recipe."""
    if contact == "gauge":
        return Fraction(0)
    if instrument is None:
        return max(_error(kind, contact) or Fraction(0) for kind in shelf.instruments.values())
    found = figure_of(instrument, contact, shelf)
    # an instrument without such faces cannot have read it better than the worst that has them
    return found if found is not None else instrument_error(contact, None, shelf)


def figure_of(instrument: Instrument, contact: str, shelf: Shelf) -> Fraction | None:
    """Its own plus-minus for such faces, else that of its kind; None where there is none."""
    shipped = shelf.instruments.get(instrument.kind)
    of_kind = _error(shipped, contact) if shipped is not None else None
    own = _error(instrument, contact)
    return of_kind if own is None else own


def _error(instrument: Instrument | InstrumentKind, contact: str) -> Fraction | None:
    written: Written | None = getattr(instrument, contact)
    return written.readings[0] if written is not None and written.readings else None


def with_between_outer_plates(dims: dict[str, Quantity]) -> dict[str, Quantity]:
    """b3 = over outer plates - 2 x plate thickness, met with a direct reading where there is one."""
    over, plate = dims.get("over_outer_plates"), dims.get("plate_thickness")
    if over is None or plate is None:
        return dims
    derived = over - plate - plate
    direct = dims.get("between_outer_plates")
    if derived.low < 0:
        return dims
    both = derived if direct is None else (direct.meet(derived) or direct)
    return dims | {"between_outer_plates": both}
