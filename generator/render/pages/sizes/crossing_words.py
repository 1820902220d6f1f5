"""How two size codes stand to each other, in rows."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.compute.fit.sizes import SizeRelation
from generator.compute.size_by_size import Crossing
from generator.model.shipped import RUNGS
from generator.render.base.components import FitRow
from generator.render.base.routes import part_route
from generator.render.base.verdicts import shown_verdict
from generator.render.say.said import capital

RELATIONS: dict[SizeRelation, str] = {
    "same": "the same code",
    "heavy-on-standard": "heavy link on standard chain: the groove stands proud, the plate floats",
    "standard-on-heavy": "standard link on heavy chain: the thicker plates hide the groove",
    "wider-on-narrower": "link for a wider chain: pins too long, the plate floats unless packed",
    "narrower-on-wider": "link for a narrower chain: pins too short",
    "other-roller": "another roller and pin",
    "other-pitch": "another pitch: the pins do not line up",
}


@dataclass(frozen=True, slots=True)
class Both:
    """One code on another: the range where the kinds, plain or sealed, are the same, and where they differ."""

    link: str
    chain: str
    relation: SizeRelation
    same: tuple[int, int]
    differs: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Side:
    """A code as link or as chain, with every code it can meet."""

    id: str
    title: str
    rows: tuple[FitRow, ...]


def both_kinds(crossings: Iterable[Crossing]) -> tuple[Both, ...]:
    """Link code by chain code; over the kinds the best of bests and the worst of worsts."""
    found: dict[tuple[str, str], dict[bool, tuple[int, int]]] = {}
    relations: dict[tuple[str, str], SizeRelation] = {}
    for each in crossings:
        key = (each.link_code, each.chain_code)
        best, worst = found.setdefault(key, {}).get(each.same_kind, (each.best, each.worst))
        found[key][each.same_kind] = (min(best, each.best), max(worst, each.worst))
        relations[key] = each.relation
    return tuple(Both(*key, relations[key], ranges[True], ranges[False]) for key, ranges in found.items())


def crossing_sides(code: str, crossings: Iterable[Crossing]) -> tuple[Side, ...]:
    """A link of this code on every chain, and every link on a chain of this code; none for industrial chain."""
    every = both_kinds(crossings)
    on = [(each.chain, each) for each in every if each.link == code]
    under = [(each.link, each) for each in every if each.chain == code]
    if not on:
        return ()
    return (
        Side("as-link", f"A {code} link", tuple(_rows("link", code, on, "on {} chain"))),
        Side("as-chain", f"On a {code} chain", tuple(_rows("chain", code, under, "a {} link"))),
    )


def _rows(side: str, code: str, found: list[tuple[str, Both]], name: str) -> Iterator[FitRow]:
    """What may go together first; two rows only where the kinds matter, and one for all of another pitch."""
    near = [(other, both) for other, both in found if both.relation != "other-pitch"]
    for other, both in sorted(near, key=lambda each: each[1].same):
        id_ = f"{side}-{code.lower()}-{other.lower()}"
        kinds = "" if both.same == both.differs else "both plain or both sealed"
        yield _row(id_, name.format(other), other, both.same, kinds, both.relation)
        if kinds:
            yield _row(
                f"{id_}-kinds-differ",
                name.format(other),
                other,
                both.differs,
                "one plain, one sealed",
                both.relation,
            )
    far = [other for other, both in found if both.relation == "other-pitch"]
    if far:
        yield FitRow(
            shown_verdict("no-go", 3, 3),
            "Every other code",
            goes_in=", ".join(far),
            why=(RELATIONS["other-pitch"],),
        )


def _row(
    id_: str, name: str, other: str, ends: tuple[int, int], kinds: str, relation: SizeRelation
) -> FitRow:
    """The plate shows the best it could be, as the grid does; the words beside it the worst."""
    best, worst = ends
    reason = RELATIONS[relation]
    why = reason if best == worst else f"at best {RUNGS[best]}, down to {RUNGS[worst]}: {reason}"
    verdict = shown_verdict(RUNGS[best], best, best)
    return FitRow(verdict, capital(name), goes_in=kinds, why=(why,), to=part_route("size", other), id=id_)
