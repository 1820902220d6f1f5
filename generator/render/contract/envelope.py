"""What every published JSON file has in common: schema name, data version, day, number format."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM

Plain = dict[str, Any]


def document(schema: str, dataset: Dataset, body: Mapping[str, Any]) -> Plain:
    return {
        "schema": schema,
        "data_version": dataset.data_version,
        "as_of": dataset.as_of.isoformat(),
        **body,
    }


def json_text(value: Any) -> str:
    """UTF-8 text, keys sorted, one record of a list a line: readable in a diff, small for a phone; an iterator is a list of records."""
    # put together once, as a large club's is tens of megabytes
    return "".join([*_pieces(value), "\n"])


def _pieces(value: Any) -> Iterator[str]:
    if not isinstance(value, dict):
        yield compact_text(value)
        return
    yield "{"
    for at, key in enumerate(sorted(value)):
        yield ",\n " * bool(at) + compact_text(key) + ":"
        yield from _member_pieces(value[key])
    yield "}"


def _member_pieces(value: Any) -> Iterator[str]:
    records = isinstance(value, list) and value and isinstance(value[0], dict)
    if not records and not isinstance(value, Iterator):
        yield compact_text(value)
        return
    yield "[\n  "
    for at, item in enumerate(value):
        yield ",\n  " * bool(at) + compact_text(item)
    yield "]"


def compact_text(value: Any) -> str:
    """One line, keys sorted, no blanks."""
    return json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def in_mm(nanometres: float | None) -> float | None:
    """Millimetres (or kilonewtons of millinewtons) with at most six decimals; -0.0 is 0.0."""
    return None if nanometres is None else round(nanometres / NM_PER_MM, 6) + 0.0
