"""What people type to find a size code."""

import re
from collections.abc import Iterator

from generator.model.dataset import SizeCodeEntry

_FRACTION = re.compile(r"[0-9]+/[0-9]+ in\b")
_SUFFIX = re.compile(r"H$")


def size_terms(size: SizeCodeEntry) -> tuple[str, ...]:
    """The code and its other spellings, pitch by width as sellers write it."""
    return tuple(text for text in dict.fromkeys(_terms(size)) if text)


def _terms(size: SizeCodeEntry) -> Iterator[str]:
    record = size.record
    yield size.code
    yield from record.also_written
    yield f"size code {size.code}"
    yield f"{size.code} chain"
    if record.series == "heavy":
        base = record.base_code or _SUFFIX.sub("", size.code)
        yield from (
            f"{base} heavy",
            f"{base} heavy duty",
            f"{base} MH",
            f"{base}MH",
            "heavy series",
            "thick plates",
        )
    if record.family == "industrial":
        yield from ("industrial chain", *(f"industrial {other}" for other in record.also_written))
        yield from (f"#{other}" for other in record.also_written)
    yield record.title
    fractions = _FRACTION.findall(record.title)
    if len(fractions) > 1:
        yield " x ".join(fractions)
        yield " x ".join(fraction.removesuffix(" in") for fraction in fractions)
    yield record.note or ""
