"""Readings as written -> intervals: instrument, recipe and spread give each dimension its width.

Goes in: a record, the club's instruments, the shelf.  Comes out: Quantity by field name; what is
unknown or not written is left out.
"""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import isqrt

from generator.model.club import Instrument
from generator.model.dataset import Shelf
from generator.model.quantity import Evidence, Quantity, outward, weakest
from generator.model.record import Record
from generator.model.shipped import InstrumentKind, Recipe
from generator.model.written import Written

# GUM 4.2.3: standard uncertainty of a mean is s / sqrt(n); twice that is added (k = 2)
COVERAGE = 2
# faces an instrument can have; a gauge carries its step in the recipe
CONTACTS = ("outside", "inside", "depth")


def measure_record(
    kind: str, record: Record, instruments: Mapping[str, Instrument], shelf: Shelf
) -> dict[str, Quantity]:
    """Every known dimension of one record, with the derived width between outer plates.

    kind: the part kind that recipes name (`link` in `link.pin_reach`).
    """
    recipes = recipes_by_field(shelf)
    instrument = instruments.get(getattr(record, "measured_with", None) or "")
    dims: dict[str, Quantity] = {}
    for name in type(record).model_fields:
        value = getattr(record, name)
        if isinstance(value, Written) and not value.is_unknown:
            recipe = recipes.get(f"{kind}.{name}")
            dims[name] = quantity_of(value, recipe, instrument, shelf, getattr(record, "source", None))
    return with_between_outer_plates(dims)


def recipes_by_field(shelf: Shelf) -> dict[str, Recipe]:
    """`kind.field` -> how it is read."""
    return {field: recipe for recipe in shelf.recipes.values() for field in recipe.fields}


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
    mean = sum(written.readings, Fraction(0)) / len(written.readings)
    spread = spread_of_mean(written.readings)
    if written.plus_minus is not None:
        minus = plus = written.plus_minus
    elif recipe is None:
        minus = plus = Fraction(0)
    else:
        read_with = instrument if evidence == "measured" else None
        jaws = instrument_error(recipe.contact, read_with, shelf)
        minus, plus = (jaws + extra.readings[0] for extra in (recipe.minus, recipe.plus))
    low, nominal, high = outward(mean - minus - spread, mean, mean + plus + spread)
    # a dimension cannot be negative, however wide its reading
    return Quantity(max(low, 0), max(nominal, 0), high, evidence, source, written.text)


def _of_source(citation: str | None, shelf: Shelf) -> tuple[Evidence, ...]:
    """The best evidence of the source that is cited, `id[place]`; nothing for one that is not known."""
    source = shelf.sources.get(citation.partition("[")[0]) if citation else None
    return (source.evidence,) if source is not None else ()


def half_of_one(written: Written, of: str, instrument: Instrument | None, shelf: Shelf) -> int:
    """The plus-minus of the first reading by itself, in nm; `of` is kind.field."""
    recipe = recipes_by_field(shelf).get(of)
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
