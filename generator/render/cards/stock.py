"""What is in each tin, for its lid, and a label for each bag."""

from collections.abc import Iterator

from generator.compute.grouped import grouped
from generator.model.chain_parts import Clip, Link, SealSet, Strip
from generator.model.dataset import Part
from generator.model.kinds import KEPT
from generator.model.record import Record
from generator.model.shipped import GET_HOME, RUNGS
from generator.model.tools_and_bikes import Tool
from generator.render.base.routes import part_route
from generator.render.cards.card import (
    Block,
    CardSet,
    Code,
    Origin,
    Says,
    Section,
    Text,
    bold,
    plain,
    tag,
)
from generator.render.cards.code import code_svg
from generator.render.cards.desk import Desk, counted
from generator.render.cards.words import in_pieces, letters, paragraphs, spaced, tag_lines, tags_within
from generator.render.say.names import PART_WORDS, parts_of
from generator.render.say.said import capital

_BESIDE = 78  # letters beside the code of a label
_NARROW = 16  # of a tag that stands there


def bags(desk: Desk) -> Iterator[Part[Record]]:
    """Everything with a label, by kind and label."""
    for kind in KEPT:
        yield from parts_of(desk.dataset, kind).values()


def serves(desk: Desk) -> dict[str, dict[int, list[str]]]:
    """By link, the bikes it serves by the rung that counts."""
    found: dict[str, dict[int, list[str]]] = {}
    for bike, fits in desk.fits.by_bike.items():
        for fit in fits:
            rung = counted(fit)
            if rung is not None and rung <= GET_HOME:
                found.setdefault(fit.link, {}).setdefault(rung, []).append(bike)
    return found


def tin_sets(desk: Desk) -> Iterator[CardSet]:
    """A lid list for each place that something is kept in."""
    kept = grouped(bags(desk), lambda part: str(getattr(part.record, "kept_in", None) or ""))
    serving = serves(desk)
    for n, place in enumerate(sorted(place for place in kept if place), 1):
        origin = Origin(kept[place][0].kind, kept[place][0].id, "kept_in")
        lines = (block for part in kept[place] for block in _line(part, serving))
        head = tuple(in_pieces(place, origin))
        yield CardSet(
            "tin",
            f"{n:02}",
            (bold("Kept in"),),
            place,
            "",
            (Section("What is in it", (*head, *lines)),),
        )


def _line(part: Part[Record], serving: dict[str, dict[int, list[str]]]) -> Iterator[Block]:
    texts = (_what(part), *_for(serving.get(part.id, {}) if part.kind == "link" else {}))
    yield from map(Says, paragraphs(texts))


def _what(part: Part[Record]) -> Text:
    count = getattr(part.record, "count", 1)
    words = PART_WORDS[part.kind]
    return (
        ((bold(f"{count} × "), tag(part.id), *plain(f" {words}.")))
        if count
        else (tag(part.id), *plain(f" {words}: "), bold("none left."))
    )


def _for(rungs: dict[int, list[str]]) -> Iterator[Text]:
    for rung, bikes in sorted(rungs.items()):
        yield from tag_lines(f"{capital(RUNGS[rung])} for", bikes)


def label_sets(desk: Desk) -> Iterator[CardSet]:
    """A label for each bag; a label that is full goes on on a second one."""
    serving = serves(desk)
    for part in bags(desk):
        route = part_route(part.kind, part.id)
        yield CardSet(
            "label",
            f"{part.kind}-{part.id}",
            (tag(part.id),),
            f"Label of {part.id}",
            route,
            (Section("", tuple(_label(desk, part, route, serving))),),
        )


def _label(
    desk: Desk, part: Part[Record], route: str, serving: dict[str, dict[int, list[str]]]
) -> Iterator[Block]:
    """Beside the code as much as stands there, the rest under it."""
    texts = [plain(f"{capital(PART_WORDS[part.kind])}{_size(part)}."), *_purpose(desk, part, serving)]
    beside: Text = ()
    while texts and tags_within(texts[0], _NARROW) and letters((*beside, *texts[0])) <= _BESIDE:
        beside = spaced(beside, texts.pop(0))
    if desk.site:
        url = desk.site + route
        yield Code(code_svg(url), url, beside)
    elif beside:
        yield Says(beside)
    # a label that takes lines by itself needs a block by itself
    yield from map(Says, paragraphs(texts) if all(tags_within(text, _NARROW) for text in texts) else texts)


def _size(part: Part[Record]) -> str:
    code_ = getattr(part.record, "size_code", None)
    if code_ is None:
        return ""
    return ", size not known" if code_ == "unknown" else f" {code_}"


def _purpose(desk: Desk, part: Part[Record], serving: dict[str, dict[int, list[str]]]) -> Iterator[Text]:
    """What the bag is for: bikes of a link, links of a clip or of seals, key of a tool."""
    record = part.record
    if isinstance(record, Link):
        found = tuple(_for(serving.get(part.id, {})))
        yield from found or ((bold("Serves no bike as it stands."),),)
    elif isinstance(record, Clip):
        yield from tag_lines(
            "For link", [id_ for id_, link in desk.dataset.links.items() if link.record.clip == part.id]
        )
    elif isinstance(record, SealSet):
        yield from tag_lines(
            "For link", [id_ for id_, link in desk.dataset.links.items() if link.record.seals == part.id]
        )
    elif isinstance(record, Strip):
        yield plain(f"{record.pitches} pitches, {record.kind}.")
    elif isinstance(record, Tool):
        yield plain(f"{capital(record.does)}." if record.does != "other" else "")
        yield from tag_lines("Key:", [record.key] if record.key else [])
