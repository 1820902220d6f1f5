"""Addresses of the handbook's pages: made from ids, so they never change.

Goes in: ids and results.  Comes out: paths relative to the root, with a slash at the end.
"""

from generator.compute.fit.result import PairFit

FOLDERS = {
    "chain": "chains",
    "link": "links",
    "clip": "clips",
    "seal": "seals",
    "plate": "plates",
    "strip": "strips",
    "tool": "tools",
    "bike": "bikes",
    "size": "sizes",
}


def part_route(kind: str, id_: str) -> str:
    """`chains/blue-520/`; a size code is written small."""
    return f"{FOLDERS[kind]}/{id_.lower()}/"


def pair_route(fit: PairFit) -> str:
    """A page of its own, or its row on the page of the chain's pairs."""
    return pair_route_of(fit.chain, fit.link) if fit.own_page else f"pairs/{fit.chain}/#{fit.link}"


def pair_route_of(chain: str, link: str) -> str:
    """Of a pair that has a page of its own."""
    return f"pairs/{chain}/{link}/"
