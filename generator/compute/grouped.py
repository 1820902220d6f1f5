"""Values that share a key, together."""

from collections.abc import Callable, Iterable
from typing import TypeVar

K = TypeVar("K")
V = TypeVar("V")


def grouped(values: Iterable[V], key: Callable[[V], K]) -> dict[K, list[V]]:
    groups: dict[K, list[V]] = {}
    for value in values:
        groups.setdefault(key(value), []).append(value)
    return groups
