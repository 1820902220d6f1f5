"""The words of a bike's page."""

from collections.abc import Mapping

from generator.model.chain_parts import Chain
from generator.model.dataset import Part

IT_RUNS_WITH = "It runs with"
LINK_NOT_WRITTEN = (
    "It is not written down which link this chain runs with. Look at it, and write it down as own_link."
)
WORN_OUT = "Worn out: start no ride. A joint on this chain is good to get home, then the chain goes."
LOST = "Clip lost on this bike"
BROKE = "Chain broke on this bike"
SECTION_TITLES: Mapping[str, str] = {
    "proper": "Proper",
    "get-home": "Get-home",
    "last-resort": "Last-resort",
    "no-go": "No-go",
    "not-settled": "Not settled",
}


def section_title(word: str, count: int, also: bool) -> str:
    """`Also proper: 2` below the one that stands above them all."""
    title = SECTION_TITLES[word]
    return f"Also {title.lower()}: {count}" if also else f"{title}: {count}"


def chain_in_words(chain: Part[Chain], kind: str, pitches: int, limit: str) -> str:
    """`520, sealed, O-rings, 114 pitches. Chain 0.4 % long, worn out at 2 %.`"""
    return f"{chain.record.size_code}, {kind}, {pitches} pitches. {wear_in_words(chain, limit)}"


def wear_in_words(chain: Part[Chain], limit: str) -> str:
    elongation = chain.record.elongation
    if elongation is None or elongation == "unknown":
        return f"How far the chain is worn is not known; worn out at {limit} %."
    return f"Chain {elongation} % long, worn out at {limit} %."


def turns_in_words(turns: int) -> str:
    return f"{turns} turns of the rear wheel bring the whole chain round"
