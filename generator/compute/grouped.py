"""Values together: those that share a key, or as many as may be held at once."""

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

K = TypeVar("K")
V = TypeVar("V")


def grouped(values: Iterable[V], key: Callable[[V], K]) -> dict[K, list[V]]:
    groups: dict[K, list[V]] = {}
    for value in values:
        groups.setdefault(key(value), []).append(value)
    return groups


def some_at_a_time(values: Iterable[V], most: int, counts: Callable[[V], int]) -> Iterator[list[V]]:
    """In order, in groups that count no more than `most` together, or are of one value."""
    some: list[V] = []
    held = 0
    for value in values:
        count = counts(value)
        if some and held + count > most:
            yield some
            some, held = [], 0
        some.append(value)
        held += count
    if some:
        yield some
