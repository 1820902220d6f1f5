"""What a handbook is made of before anything is written: pages, other files, and the facts in every frame."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from generator.render.base.table import Table


@dataclass(frozen=True, slots=True)
class Download:
    """A file with the same numbers."""

    label: str
    to: str


@dataclass(frozen=True, slots=True)
class Page:
    """One address of the handbook and what its template prints there.

    A hand-written page at the same address comes first and becomes its introduction.
    """

    path: str  # "chains/blue-520/", ends with a slash; "" is the start page
    title: str
    description: str  # one plain sentence, for search engines and the list of all pages
    template: str  # below site_overrides, such as "handbook/chain.html"
    context: Mapping[str, object]
    search: tuple[str, ...] = ()  # what people may type to find it, strongest first
    kind: str = "page"
    in_nav: bool = False
    brief: bool = False  # one of thousands: its frame has the first group of the menu only
    wide: bool = False  # uses the whole width: no list of what is on the page
    tables: tuple[Table, ...] = ()  # each one a CSV file, named in the last line whether it is printed or not
    files: tuple[Download, ...] = ()  # other files with the same numbers
    # more of the context, made when the page is printed: thousands of drawings need not wait in memory
    later: Callable[[], Mapping[str, object]] | None = None

    def values(self) -> Mapping[str, object]:
        """All that its template prints."""
        return {**self.context, **self.later()} if self.later else self.context


TABLES = "data/v1/tables"


def table_file(table: Table) -> str:
    """Its address."""
    return f"{TABLES}/{table.id}.csv"


@dataclass(frozen=True, slots=True)
class Asset:
    """A file placed as it is: data, schemas, scripts, drawings."""

    path: str
    content: bytes | str


@dataclass(frozen=True, slots=True)
class SiteFacts:
    """What the frame of every page says."""

    name: str
    club: str
    as_of: str
    data_version: str
    invented: bool = False
    units: str = "mm"  # shown first: mm or in
    report_to: str = ""


@dataclass(frozen=True, slots=True)
class Site:
    """A whole handbook; `values` are the names that hand-written pages may print."""

    facts: SiteFacts
    pages: tuple[Page, ...]
    assets: tuple[Asset, ...] = ()
    values: Mapping[str, object] = field(default_factory=dict)


def relative_address(at: str, target: str) -> str:
    """The shortest way from the page `at` to the address `target`, for any place the site is put."""
    here, there = at.split("/")[:-1], target.split("/")
    shared = 0
    for mine, other in zip(here, there[:-1], strict=False):
        if mine != other:
            break
        shared += 1
    return "../" * (len(here) - shared) + "/".join(there[shared:]) or "./"
