"""Which press, breaker and riveter go with a bike's chain and own link, each with the key it needs."""

from collections.abc import Iterator

from generator.compute.others.result import PartFit
from generator.model.dataset import Part
from generator.model.shipped import GET_HOME
from generator.model.tools_and_bikes import Bike, Tool
from generator.render.cards.card import Block, Run, Says, Text, bold, tag
from generator.render.cards.desk import Desk
from generator.render.cards.words import spaced, typed

_JOBS = {"breaker": "Breaker", "press": "Press", "riveter": "Riveter"}


def tool_lines(desk: Desk, bike: Part[Bike]) -> Iterator[Block]:
    """One a tool that serves; a job that no tool of the club does is said too."""
    chain = bike.record.chain
    own = desk.dataset.chains[chain].record.own_link or ""
    for job, title in _JOBS.items():
        if _needed(desk, job, own):
            part = ("chain", chain) if job == "breaker" else ("link", own)
            tools = [tool for tool in _serving(desk, part) if tool.record.does == job]
            yield from (Says(_with_key(desk, tool, title)) for tool in tools)
            if not tools:
                yield Says((Run(f"{title}: "), bold("none of the club's takes it.")))


def _needed(desk: Desk, job: str, link: str) -> bool:
    """A press only where a plate is pressed, a riveter only where pins are riveted."""
    known = desk.dataset.links.get(link)
    if job == "riveter":
        return known is not None and known.record.closure == "rivet"
    return job == "breaker" or (known is not None and known.record.plate_fit != "slip")


def _serving(desk: Desk, part: tuple[str, str]) -> Iterator[Part[Tool]]:
    for fit in desk.fits.others.tools:
        if _good(fit) and fit.has(*part):
            yield desk.dataset.tools[fit.id_of("tool")]


def _with_key(desk: Desk, tool: Part[Tool], title: str) -> Text:
    kept = typed(tool, "kept_in")
    where = (Run("In "), *kept, Run(".")) if kept else ()
    return spaced((Run(f"{title}:"),), (tag(tool.id),), _key(desk, tool), where)


def _key(desk: Desk, tool: Part[Tool]) -> Text:
    key = tool.record.key
    if key is None:
        return ()
    there = any(_good(fit) and fit.has("tool", tool.id) for fit in desk.fits.others.keys)
    return (Run("with "), tag(key), Run(".")) if there else (bold("its key is missing: "), tag(key), Run("."))


def _good(fit: PartFit) -> bool:
    return fit.worst is not None and fit.worst <= GET_HOME
