"""Every seal set, and every set of packing washers, in every joint made for sealed chain."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from itertools import product
from typing import Any

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.categories import parts_of
from generator.compute.fit.detail import look_at
from generator.compute.fit.fits import DISAGREE
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import (
    GOES_ON,
    NOTHING,
    SEALS,
    SEATS,
    Bench,
    Options,
    bench,
    options_of,
    same_family,
)
from generator.compute.fit.plans import Plans
from generator.compute.fit.refused import why_refused
from generator.compute.fit.result import Met
from generator.compute.grouped import some_at_a_time
from generator.compute.others.close import fit_of, refused_fit
from generator.compute.others.meeting import met
from generator.compute.others.result import PartFit
from generator.model.chain_parts import Chain, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.model.many import many_pairs
from generator.model.reading import Reading
from generator.model.shipped import Rule
from generator.rules.joined import PARTS
from generator.rules.plan import Plan
from generator.rules.table import rules_of

Triple = tuple[Part[SealSet], Part[Link], Part[Chain]]
# and why no verdict can be given on it
_Joint = tuple[tuple[Part[Link], Part[Chain]], str | None]
JOINTS_AT_A_TIME = 20_000
# more meetings than this are beyond reading, and beyond the memory of a small machine
MOST_MEETINGS = 250_000


def seal_fits(dataset: Dataset) -> tuple[PartFit, ...]:
    """Some sets at a time, so that the numbers behind a large club's joints need not all be held at once."""
    joints = list(_joints(dataset))
    rules = rules_of(dataset, "seal")
    # a dry fit was done with the link's own seals and says nothing of others
    tried, untried = (
        _Bench(each, rules, Plans(rules, dataset.shelf.dry_fits))
        for each in (dataset, replace(dataset, trials={}))
    )
    groups = some_at_a_time(dataset.seals.values(), JOINTS_AT_A_TIME, lambda _: len(joints))
    own_only = own_sets_only(dataset)
    return tuple(fit for group in groups for fit in _fits(group, joints, tried, untried, own_only))


def own_sets_only(dataset: Dataset) -> bool:
    """Is a set judged only with links whose own it is and with links whose own are not known or gone?  In a club with
    so many of all three that nobody could read more."""
    return len(dataset.seals) * sum(1 for _ in _meeting(dataset)) > MOST_MEETINGS


@dataclass(frozen=True, slots=True)
class _Bench:
    """What seals are judged with."""

    dataset: Dataset
    rules: Mapping[str, Rule]
    plans: Plans


def _fits(
    seals: Iterable[Part[SealSet]],
    joints: Iterable[_Joint],
    tried: _Bench,
    untried: _Bench,
    own_only: bool,
) -> Iterator[PartFit]:
    triples = [
        ((seal, *joint), _unknown_kind(seal) or reason)
        for seal in seals
        for joint, reason in joints
        if not own_only or _is_for(tried.dataset, seal, joint[0])
    ]
    wanted = [triple for triple, reason in triples if reason is None]
    own = [triple for triple in wanted if triple[1].record.seals == triple[0].id]
    others = [triple for triple in wanted if triple[1].record.seals != triple[0].id]
    judged = {**_judged(tried, own), **_judged(untried, others)}
    for triple, reason in triples:
        parts = met(*triple)
        yield judged[parts] if reason is None else refused_fit("seal", parts, reason)


def _is_for(dataset: Dataset, seal: Part[SealSet], link: Part[Link]) -> bool:
    """Washers take the place of any seals."""
    own = dataset.seals.get(link.record.seals or "")
    return seal.record.shape == "washer" or own is None or own.id == seal.id or own.record.count == 0


def _joints(dataset: Dataset) -> Iterator[_Joint]:
    for link, chain in _meeting(dataset):
        yield (link, chain), why_refused(dataset, chain, link)


def _meeting(dataset: Dataset) -> Iterator[tuple[Part[Link], Part[Chain]]]:
    """A link for plain chain has no room for seals, and another pitch or roller is not worth asking."""
    links = [link for link in dataset.links.values() if link.record.made_for != "plain"]
    return (
        (link, chain)
        for link, chain in product(links, dataset.chains.values())
        if same_family(dataset, chain, link)
    )


def _unknown_kind(seal: Part[SealSet]) -> str | None:
    return "it is not known what kind of seals these are" if seal.record.shape == "unknown" else None


def _judged(by: _Bench, triples: list[Triple]) -> Mapping[tuple[Met, ...], PartFit]:
    """Through the columns, cases and dry fits of the joint, each link with its own clip."""
    if not triples:
        return {}
    dataset, on = by.dataset, bench(by.dataset)
    judge = Judge(dataset, on, _options(on, triples), by.plans)
    found = {}
    alike: dict[tuple[int, ...], PartFit] = {}
    for closely in judge.closely(np.arange(len(triples))):
        behind = _looked_at(judge, closely.plan)
        for at, number in enumerate(closely.index.tolist()):
            parts = met(*triples[number])
            if at in closely.contradicted:
                found[parts] = refused_fit("seal", parts, DISAGREE)
                continue
            # joints that come out alike in every check are worked out once: where the plate is pressed the chain alone
            # decides; a joint that was tried stands for itself
            tried = number if number in judge.pair_trials else -1
            key = (id(closely.plan), tried, *(int(each[number]) for each in behind))
            if key not in alike:
                asked = partial(_kind_asked, *triples[number])
                look = replace(look_at(judge, closely, at), questions=asked)
                alike[key] = fit_of(look, "seal", parts, by.rules, many_pairs(dataset))
            found[parts] = replace(alike[key], met=parts)
    return found


def _looked_at(judge: Judge, plan: Plan) -> list[NDArray[np.integer[Any]]]:
    """By option: the places of the parts whose readings the checks rest on or ask for, and the words they go by."""
    measured = {part for check in plan.checks if check.category is None for part in parts_of(plan, check)}
    categories = sorted({check.category for check in plan.checks if check.category is not None})
    places = [getattr(judge.options, part) for part in PARTS if part in measured | {"chain", "seal_set"}]
    return [*places, *(judge.categories[name].codes for name in categories)]


def _options(on: Bench, triples: list[Triple]) -> Options:
    places = {(part.kind, part.id): i for parts in (on.chains, on.links) for i, part in enumerate(parts)}
    rows = [
        (
            places["chain", chain.id],
            places["link", link.id],
            on.clip_at(link.record.clip),
            SEALS.index("packed" if seal.record.shape == "washer" else "fitted"),
            on.seal_at(seal.id),
            SEATS.index("neighbours" if link.record.plate_fit == "press" else "made"),
            NOTHING,
            GOES_ON,
        )
        for seal, link, chain in triples
    ]
    return options_of(rows)


def _kind_asked(seal: Part[SealSet], _link: Part[Link], chain: Part[Chain]) -> Mapping[str, Reading]:
    """What would settle whether the sections are alike."""
    on_chain = chain.record.seal == "unknown"
    return {"seal": Reading("chain", chain.id, "seal") if on_chain else Reading("seal", seal.id, "shape")}
