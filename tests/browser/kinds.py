"""One page of each kind of the demo's handbook, for looks that cost too much to take at every page.

Goes in: nothing.  Comes out: addresses by kind; where a kind has many pages, the one in the middle by size.
"""

from functools import cache

from tests.handbook import bodies, demo_site

WRITTEN_BY_HAND = {"about": "about/", "not-there": "404.html"}


@cache
def one_of_each() -> dict[str, str]:
    """Kind -> file below the handbook's folder."""
    kinds: dict[str, list[tuple[int, str]]] = {}
    for page in demo_site().pages:
        kinds.setdefault(page.kind, []).append((len(bodies()[page.path]), page.path))
    middle = {kind: sorted(pages)[len(pages) // 2][1] for kind, pages in kinds.items()}
    return {kind: _file(path) for kind, path in {**middle, **WRITTEN_BY_HAND}.items()}


def _file(path: str) -> str:
    return path if path.endswith(".html") else f"{path}index.html"
