"""The set of a size code: what goes together by code alone, lengths new and worn, and what the club has of it."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from generator.compute.size_by_size import Crossing, size_by_size
from generator.compute.wear.limits import club_rule, percent_of
from generator.model.dataset import SizeCodeEntry
from generator.model.elongation import pitch_of_size
from generator.model.shipped import RUNGS
from generator.render.base.routes import part_route
from generator.render.cards.card import (
    Block,
    CardSet,
    Fact,
    Group,
    Listing,
    Says,
    Section,
    Text,
    bold,
    plain,
    strong,
)
from generator.render.cards.code import code
from generator.render.cards.desk import Desk
from generator.render.cards.wear import MEASURED
from generator.render.cards.words import cautions, millimetres, plate, tag_lines

_FIELDS: Mapping[str, str] = {
    "pitch": "Pitch",
    "roller_diameter": "Roller",
    "inner_width": "Inner width",
    "pin_diameter": "Pin",
}


def size_sets(desk: Desk) -> Iterator[CardSet]:
    """Of every code that some chain or link of the club has."""
    dataset = desk.dataset
    codes = {
        *(chain.record.size_code for chain in dataset.chains.values()),
        *(link.record.size_code for link in dataset.links.values()),
    }
    crossings = size_by_size(dataset)
    for code_ in sorted(codes & set(dataset.shelf.sizes)):
        yield _set(desk, dataset.shelf.sizes[code_], crossings)


def _set(desk: Desk, size: SizeCodeEntry, crossings: Sequence[Crossing]) -> CardSet:
    route = part_route("size", size.code)
    return CardSet(
        "size",
        size.code,
        (bold(size.code),),
        f"Size code {size.code}",
        route,
        (
            Section("Links on it, by code alone", tuple(_links(size.code, crossings))),
            Section("Lengths", tuple(_lengths(desk, size))),
            Section("What the club has", (*_has(desk, size.code), *code(desk.site, route))),
        ),
    )


def _links(code_: str, crossings: Sequence[Crossing]) -> Iterator[Block | Listing]:
    """Floor and ceiling for links nobody has measured, as parts of no make."""
    yield Says(
        (
            strong("Nothing here is proper before it is measured or tried. "),
            *plain("The outline is the worst it could be."),
        )
    )
    found: dict[tuple[int, int], dict[str, list[str]]] = {}
    for each in crossings:
        if each.chain_code == code_ and each.relation not in ("other-pitch", "other-family"):
            kinds = found.setdefault((each.worst, each.best), {})
            kinds.setdefault(each.chain_kind, []).append(f"{each.link_code} {each.link_kind}")
    for (worst, best), kinds in sorted(found.items()):
        says = "" if best == worst else f"could be {RUNGS[best]} to {RUNGS[worst]}"
        lists = (plain(f"On {kind} chain: {', '.join(links)}.") for kind, links in kinds.items())
        yield Listing(Group(plate(best, worst), plain(says)), tuple(map(Says, lists)))
    yield Says((bold("A code of another pitch is no-go."),))


def _lengths(desk: Desk, size: SizeCodeEntry) -> Iterator[Block]:
    for field, name in _FIELDS.items():
        dim = size.dims.get(field)
        if dim is not None:
            yield Fact(name, plain(millimetres(dim.nominal, 3 if field == "pitch" else 2)))
    pitch = pitch_of_size(desk.dataset.shelf.sizes, size.code)
    if pitch is None:
        return
    rule_id, rule = club_rule(desk.dataset)
    yield Fact(f"{MEASURED} pitches new", plain(millimetres(MEASURED * pitch, 1)))
    for kind in ("plain", "sealed"):
        percent = percent_of(rule, kind)
        worn = float(MEASURED * pitch * (1 + Fraction(percent) / 100))
        yield Fact(
            f"Worn out, {kind}",
            (strong(millimetres(worn, 1)), *plain(f" ({float(percent):g} %, rule {rule_id})")),
        )


def _has(desk: Desk, code_: str) -> Iterator[Block]:
    dataset = desk.dataset
    chains = [id_ for id_, part in dataset.chains.items() if part.record.size_code == code_]
    bikes = [id_ for id_, part in dataset.bikes.items() if part.record.chain in chains]
    links = [id_ for id_, part in dataset.links.items() if part.record.size_code == code_]
    texts: Iterator[Text] = (
        text
        for lead, ids in (("Chains:", chains), ("Bikes:", bikes), ("Links:", links))
        for text in tag_lines(lead, ids)
    )
    yield from map(Says, texts)
    yield Says((bold("Which of them goes on which chain: "), *plain("the card of the bike says.")))
    yield from cautions(dataset, "manual-first")
