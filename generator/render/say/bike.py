"""The words of a bike's page."""

from collections.abc import Mapping

from generator.model.chain_parts import Chain
from generator.model.dataset import Part

IT_RUNS_WITH = "It runs with"
LINK_NOT_WRITTEN = (
    "It is not written down which link this chain runs with. Look at it, and write it down as own_link."
)
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


def chain_in_words(chain: Part[Chain], kind: str, pitches: int) -> str:
    """`520, sealed, O-rings, 114 pitches.`"""
    return f"{chain.record.size_code}, {kind}, {pitches} pitches."


def turns_in_words(turns: int) -> str:
    return f"{turns} turns of the rear wheel bring the whole chain round"
