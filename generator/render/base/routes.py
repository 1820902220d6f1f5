"""Addresses of the handbook's pages, relative to the root: made from ids, so they never change."""

from generator.compute.fit.result import PairFit
from generator.model.kinds import KINDS, PART_KINDS
from generator.model.shipped import RUNGS

FOLDERS = {**{kind: KINDS[kind].stem for kind in PART_KINDS}, "size": "sizes"}


# what the page of a chain's pairs names itself: its frame, its shapes and its sections
_WORDS = (*RUNGS, "measure-first", "cannot-judge")
_OWN_NAMES = frozenset(
    (
        *("content", "menu", "not-settled", "sign", "hatch", "n-broke", "n-find", "n-menu", "n-start"),
        *(f"{start}{word}" for start in ("", "v-", "s-") for word in _WORDS),
    )
)


def row_anchor(link: str) -> str:
    """Of a pair's row: the link's id, kept apart by a sign that no id has where the page uses that name itself."""
    return f"{link}_" if link in _OWN_NAMES else link


def part_route(kind: str, id_: str) -> str:
    """`chains/blue-520/`; a size code is written small."""
    return f"{FOLDERS[kind]}/{id_.lower()}/"


def pair_route(fit: PairFit) -> str:
    """A page of its own, or its row on the page of the chain's pairs."""
    return (
        pair_route_of(fit.chain, fit.link) if fit.own_page else f"pairs/{fit.chain}/#{row_anchor(fit.link)}"
    )


def pair_route_of(chain: str, link: str) -> str:
    """Of a pair that has a page of its own."""
    return f"pairs/{chain}/{link}/"
