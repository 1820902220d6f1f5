"""The tools a joint asks for, with their keys and the places of both."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.compute.fit.result import PairFit
from generator.compute.others.result import PartFit
from generator.model.dataset import Part
from generator.model.shipped import NO_GO
from generator.model.tools_and_bikes import Tool
from generator.render.base.components import Need, NeedKind
from generator.render.base.routes import part_route
from generator.render.base.verdicts import best_first
from generator.render.pages.book import Book
from generator.render.say.names import named
from generator.render.say.needs import (
    BREAKER_FOR,
    GOGGLES,
    GREASE,
    NO_TOOL,
    NONE_OF_THE_CLUB,
    NOT_MEASURED,
    PRESS_FOR,
    RIVETER_FOR,
    key_gone,
    with_key,
)


def needs_of(book: Book, fit: PairFit) -> tuple[Need, ...]:
    """To join a pair the way its verdict is for."""
    tools = tools_of(book, fit)
    return (*tools, GREASE, GOGGLES) if tools or (fit.option and fit.word != "no-go") else ()


def tools_of(book: Book, fit: PairFit) -> tuple[Need, ...]:
    """The tools alone."""
    link = book.dataset.links[fit.link].record
    option = fit.option
    if option is None or fit.word == "no-go":
        return ()
    needs: list[Need] = []
    if link.plate_fit != "slip":
        needs.append(_best(book, "press", "link", fit.link, PRESS_FOR))
    if option.closure == "rivet":
        needs.append(_best(book, "riveter", "link", fit.link, RIVETER_FOR))
    if option.closure == "clip":
        needs.extend(_plain(book, "pliers"))
    return tuple(needs)


def breaker_for(book: Book, chain: str) -> Need:
    return _best(book, "breaker", "chain", chain, BREAKER_FOR)


def _best(book: Book, does: NeedKind, kind: str, id_: str, without: str) -> Need:
    """The tool that does it best, of equals the first; with its key, or the word that it is missing."""
    found = [fit for fit in book.others.tools if fit.has(kind, id_) and _tool(book, fit).record.does == does]
    able = [fit for fit in found if fit.worst is not None and fit.worst < NO_GO]
    if able:
        return _need(book, _tool(book, min(able, key=lambda fit: best_first(fit.best, fit.worst))), does)
    unread = (_tool(book, fit) for fit in found if fit.best is not None and fit.best < NO_GO)
    there = next((tool for tool in unread if tool.record.count > 0), None)
    if there is None:
        return _without(book, does, without, _size_code(book, kind, id_))
    need = _need(book, there, does)
    return need if need.gone else replace(need, gone=NOT_MEASURED)


def _size_code(book: Book, kind: str, id_: str) -> str:
    return (book.dataset.links[id_] if kind == "link" else book.dataset.chains[id_]).record.size_code


def _without(book: Book, does: NeedKind, without: str, code: str) -> Need:
    """Nothing of the club does it, or what takes the size lacks its key."""
    have = [tool for tool in book.dataset.tools.values() if tool.record.does == does]
    keyless = [tool for tool in have if code in tool.record.takes and _key_is_gone(book, tool)]
    gone = key_gone(named(keyless[0]), _key_name(book, keyless[0])) if keyless else NO_TOOL[does]
    return Need(does, without if not have else f"{NONE_OF_THE_CLUB[does]}", gone=gone)


def _plain(book: Book, does: NeedKind) -> Iterator[Need]:
    tools: Sequence[Part[Tool]] = [t for t in book.dataset.tools.values() if t.record.does == does]
    ready = [tool for tool in tools if tool.record.count > 0]
    yield _need(book, ready[0], does) if ready else Need(does, NONE_OF_THE_CLUB[does], gone=NO_TOOL[does])


def _need(book: Book, tool: Part[Tool], does: NeedKind) -> Need:
    gone = _key_is_gone(book, tool)
    key = _key_name(book, tool)
    return Need(
        does,
        named(tool),
        detail=with_key(key) if key and not gone else "",
        place=tool.record.kept_in or "",
        gone=key_gone(named(tool), key) if gone else "",
        to=part_route("tool", tool.id),
    )


def _key_is_gone(book: Book, tool: Part[Tool]) -> bool:
    key = book.dataset.tools.get(tool.record.key or "")
    return key is not None and key.record.count == 0


def _key_name(book: Book, tool: Part[Tool]) -> str:
    key = book.dataset.tools.get(tool.record.key or "")
    if key is None:
        return ""
    kept, at = key.record.kept_in, tool.record.kept_in
    return key.label if kept == at or not kept else f"{key.label}, {kept}"


def _tool(book: Book, fit: PartFit) -> Part[Tool]:
    return book.dataset.tools[fit.id_of("tool")]
