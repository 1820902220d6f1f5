"""The tools a joint takes, by what they do and as the club labels them."""

from collections.abc import Iterator

from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset, Part
from generator.model.tools_and_bikes import Tool


def tools_for(dataset: Dataset, fit: PairFit) -> tuple[str, ...]:
    """In the order of the hands; a tool that the club has is named, with its key."""
    return tuple(_tools(dataset, fit))


def _tools(dataset: Dataset, fit: PairFit) -> Iterator[str]:
    link = dataset.links[fit.link].record
    code = dataset.chains[fit.chain].record.size_code
    if link.plate_fit in ("press", "press-to-shoulder"):
        yield _named(dataset, "press", "a side-plate press", code)
    if link.closure == "clip":
        yield _named(dataset, "pliers", "narrow pliers", code)
    elif link.closure == "rivet" and link.pin_kind == "solid":
        yield "a hammer and a heavy backing, to peen solid pins"
    elif link.closure == "rivet":
        yield _named(dataset, "riveter", "a riveter", code)


def _named(dataset: Dataset, does: str, words: str, code: str) -> str:
    found = next((tool for tool in dataset.tools.values() if _takes(tool, does, code)), None)
    if found is None:
        return words
    key = f" with {found.record.key}" if found.record.key else ""
    return f"{words} ({found.id}{key})"


def _takes(tool: Part[Tool], does: str, code: str) -> bool:
    takes = tool.record.takes
    return tool.record.does == does and tool.record.count > 0 and (not takes or code in takes)
