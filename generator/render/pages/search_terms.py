"""What people may type to find a page."""

from collections.abc import Iterator
from fractions import Fraction

from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset, Part
from generator.model.quantity import NM_PER_INCH, NM_PER_MM
from generator.model.record import Record
from generator.render.base.lengths import fixed

# fields whose words name a kind of part
_KIND_FIELDS = ("kind", "closure", "plate_fit", "made_for", "seal", "shape", "does", "history", "own_joint")
_FINEST_INCH = 64  # people speak of sixty-fourths, of nothing finer


def part_terms(part: Part[Record], kind_word: str) -> tuple[str, ...]:
    """Id, name, size code, words of its kind, readings in both units, where it is kept."""
    record = part.record
    found = [part.id, record.name or "", getattr(record, "size_code", ""), kind_word]
    found += [
        str(getattr(record, field)).replace("-", " ") for field in _KIND_FIELDS if hasattr(record, field)
    ]
    found += [getattr(record, "kept_in", None) or "", record.note or ""]
    found += [text for quantity in part.dims.values() for text in length_terms(quantity.nominal)]
    return tuple(dict.fromkeys(text for text in found if text and text not in ("unknown", "none")))


def length_terms(nanometres: int) -> Iterator[str]:
    """`15.875 mm`, `0.625 in` and, where it is exact, `5/8 in`."""
    yield f"{_trimmed(Fraction(nanometres, NM_PER_MM), 3)} mm"
    yield f"{_trimmed(Fraction(nanometres, NM_PER_INCH), 4)} in"
    inches = Fraction(nanometres, NM_PER_INCH)
    if inches.denominator in (2, 4, 8, 16, 32, _FINEST_INCH):
        whole, rest = divmod(inches.numerator, inches.denominator)
        yield f"{f'{whole} ' if whole else ''}{rest}/{inches.denominator} in"


def _trimmed(value: Fraction, decimals: int) -> str:
    return fixed(value, decimals).rstrip("0").rstrip(".")


def pair_terms(dataset: Dataset, fit: PairFit) -> tuple[str, ...]:
    """Both ids together, both names, both size codes."""
    chain, link = dataset.chains[fit.chain].record, dataset.links[fit.link].record
    found = (f"{fit.link} {fit.chain}", link.name or "", chain.name or "", link.size_code, chain.size_code)
    return tuple(dict.fromkeys(text for text in found if text and text != "unknown"))
