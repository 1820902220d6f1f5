"""The menu of the handbook, one short list for every page."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

REST = "More"


@dataclass(frozen=True, slots=True)
class MenuEntry:
    """One page."""

    title: str
    path: str


@dataclass(frozen=True, slots=True)
class MenuGroup:
    """Pages that belong together."""

    title: str
    entries: tuple[MenuEntry, ...]


def menu_of(groups: Mapping[str, Iterable[str]], titles: Mapping[str, str]) -> tuple[MenuGroup, ...]:
    """Listed pages that exist, in the order listed; the others follow under their own heading."""
    listed = {title: [path for path in paths if path in titles] for title, paths in groups.items()}
    named = {path for paths in listed.values() for path in paths}
    listed[REST] = [*listed.get(REST, []), *sorted(path for path in titles if path not in named)]
    return tuple(
        MenuGroup(title, tuple(MenuEntry(titles[path], path) for path in paths))
        for title, paths in listed.items()
        if paths
    )
