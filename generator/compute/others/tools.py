"""Breakers on chains, presses and riveters on links, other tools by size code; and each tool's key."""

from collections.abc import Iterator

from generator.compute.fit.refused import size_refused
from generator.compute.fit.result import Met
from generator.compute.others.judge import judge_meetings
from generator.compute.others.meeting import Meeting, Value, met, read
from generator.compute.others.result import PartFit
from generator.compute.others.size_codes import published, relation_of
from generator.compute.others.strips import chain_refused
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.reading import Reading
from generator.model.tools_and_bikes import Tool
from generator.rules.table import rules_of

# these are turned by a key; the rest is held in the hand
# the pitch of a 520, less what readings differ by
FILED_FROM = 15_800_000
TURNED = ("press", "breaker", "riveter")

PLATE_FIT_UNKNOWN = "it is not known whether the link's plate slides on or needs a press"


def tool_fits(dataset: Dataset) -> tuple[PartFit, ...]:
    meetings = [meeting for tool in dataset.tools.values() for meeting in _of_tool(dataset, tool)]
    return judge_meetings(meetings, rules_of(dataset, "tool", "key"), "tool", dataset)


def key_fits(dataset: Dataset) -> tuple[PartFit, ...]:
    """Every tool that is turned, or names a key, with that key."""
    meetings = [
        Meeting("key", _with_key(tool), words=_key_words(dataset, tool), asks=_key_asked(tool))
        for tool in dataset.tools.values()
        if tool.record.does in TURNED or tool.record.key
    ]
    return judge_meetings(meetings, rules_of(dataset, "key"), "key", dataset)


def _of_tool(dataset: Dataset, tool: Part[Tool]) -> Iterator[Meeting]:
    """A breaker opens chains; press and riveter close the links that need them; a tool for some sizes
    only is asked about chains; what takes every size is not asked at all."""
    does = tool.record.does
    if does == "press":
        yield from (_closes(dataset, tool, link) for link in dataset.links.values() if _pressed(link))
    elif does == "riveter":
        riveted = (link for link in dataset.links.values() if link.record.closure == "rivet")
        yield from (_closes(dataset, tool, link) for link in riveted)
    elif does == "breaker" or tool.record.takes:
        yield from (_opens(dataset, tool, chain) for chain in dataset.chains.values())


def _pressed(link: Part[Link]) -> bool:
    return link.record.plate_fit != "slip"


def _opens(dataset: Dataset, tool: Part[Tool], chain: Part[Chain]) -> Meeting:
    refused = chain_refused(dataset, chain)
    if refused:
        return Meeting("tool-chain", met(tool, chain), refused=refused)
    size = _size_word(dataset, tool, chain.record.size_code)
    return Meeting(
        "tool-chain",
        met(tool, chain),
        values={
            "jaw": read(tool, "jaw_opening"),
            "tp": read(tool, "pin_diameter"),
            "b4": read(chain, "over_riveted_pins"),
            "pd": _chain_pin(dataset, chain),
        },
        case={
            "job": "opens" if tool.record.does == "breaker" else "holds",
            "flares": "no",
            "pins": _pins(dataset, chain),
        },
        words={"tool-size": size, "heads": _heads(dataset, chain)} | _key_words(dataset, tool),
        asks=_asked(tool),
        stopped_by=_stopped(size),
    )


def _chain_pin(dataset: Dataset, chain: Part[Chain]) -> Value:
    """No caliper reaches a riveted pin: the pin of the link it runs with, which runs in the same bushes;
    failing that, what goes with its size code."""
    own = dataset.links.get(chain.record.own_link or "")
    if own is not None and "pin_diameter" in own.dims:
        return read(own, "pin_diameter")
    return published(dataset, chain.record.size_code, "pin_diameter")


def _pins(dataset: Dataset, chain: Part[Chain]) -> str:
    """Only rivet links have hollow pins; a chain is opened at its own."""
    own = dataset.links.get(chain.record.own_link or "")
    rivets = own is not None and own.record.closure == "rivet" and own.record.pin_kind != "solid"
    return "hollow" if rivets else "solid"


def _heads(dataset: Dataset, chain: Part[Chain]) -> str:
    """From the pitch of a 520 upwards the heads are filed off first; the file belongs to the breaker like its key."""
    if dataset.shelf.sizes[chain.record.size_code].dims["pitch"].nominal < FILED_FROM:
        return "small"
    files = (tool.record for tool in dataset.tools.values() if tool.record.does == "file")
    return "file-there" if any(file.count > 0 for file in files) else "no-file"


def _closes(dataset: Dataset, tool: Part[Tool], link: Part[Link]) -> Meeting:
    record = link.record
    reason = size_refused(dataset, record.size_code, "link")
    if reason is not None or record.plate_fit == "unknown":
        return Meeting("tool-link", met(tool, link), refused=reason or PLATE_FIT_UNKNOWN)
    size = _size_word(dataset, tool, record.size_code)
    return Meeting(
        "tool-link",
        met(tool, link),
        values={
            "jaw": read(tool, "jaw_opening"),
            "L": read(link, "pin_length"),
            "t": read(link, "side_plate_thickness"),
        },
        case={"job": "closes", "pins": "solid", "flares": "yes" if tool.record.does == "riveter" else "no"},
        words={"tool-size": size, "rivet-pin": record.pin_kind} | _key_words(dataset, tool),
        asks=_asked(tool) | {"rivet-pin": Reading("link", link.id, "pin_kind")},
        stopped_by=_stopped(size),
    )


def _size_word(dataset: Dataset, tool: Part[Tool], code: str) -> str:
    takes = tool.record.takes
    if not takes or "unknown" in takes:
        return "taken" if code in takes else "unknown"
    if code in takes:
        return "taken"
    series = ("heavy-on-standard", "standard-on-heavy", "same")
    alike = any(relation_of(dataset, code, each) in series for each in takes if each in dataset.shelf.sizes)
    return "other-series" if alike else "not-taken"


def _stopped(size: str) -> tuple[str, ...]:
    return ("tool-size",) if size == "not-taken" else ()


def _asked(tool: Part[Tool]) -> dict[str, Reading]:
    return {"tool-size": Reading("tool", tool.id, "takes"), **_key_asked(tool)}


def _key_asked(tool: Part[Tool]) -> dict[str, Reading]:
    return {"key": Reading("tool", tool.id, "key")}


def _with_key(tool: Part[Tool]) -> tuple[Met, ...]:
    """The tool, and after it the key it names."""
    return (Met("tool", tool.id), *([Met("key", tool.record.key)] if tool.record.key else []))


def _key_words(dataset: Dataset, tool: Part[Tool]) -> dict[str, str]:
    if tool.record.key is None:
        return {"key": "unknown" if tool.record.does in TURNED else "not-needed"}
    key = dataset.tools.get(tool.record.key)
    return {"key": "present" if key is not None and key.record.count > 0 else "none-left"}
