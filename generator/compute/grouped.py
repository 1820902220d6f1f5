"""Values together: those that share a key, or as many as may be held at once."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TypeVar

K = TypeVar("K")
V = TypeVar("V")


def grouped(values: Iterable[V], key: Callable[[V], K]) -> dict[K, list[V]]:
    groups: dict[K, list[V]] = {}
    for value in values:
        groups.setdefault(key(value), []).append(value)
    return groups


def some_at_a_time(values: Sequence[V], most: int, each: int = 1) -> Iterator[Sequence[V]]:
    """In order, in groups that count no more than `most` where a value counts `each`; one at the least."""
    some = max(1, most // max(1, each))
    return (values[start : start + some] for start in range(0, len(values), some))
