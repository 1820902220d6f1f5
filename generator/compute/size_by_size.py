"""What the size codes and kinds alone say about a link on a chain, before anybody has measured anything."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product
from typing import Literal

from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.compute.fit.sizes import SizeRelation, size_relation
from generator.model.chain_parts import Chain, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Evidence, weakest

Kind = Literal["plain", "sealed"]
KINDS: tuple[Kind, ...] = ("plain", "sealed")
# the rules that speak where nothing is measured
THUMB_RULES = ("rule-of-thumb", "size-code", "chain-kind")
_SEALS = "seals-not-known"


@dataclass(frozen=True, slots=True)
class Crossing:
    """A link of one code and kind on a chain of another: `best` is the ceiling, `worst` the floor."""

    link_code: str
    link_kind: Kind
    chain_code: str
    chain_kind: Kind
    relation: SizeRelation
    best: int
    worst: int
    evidence: Evidence

    @property
    def same_kind(self) -> bool:
        return self.link_kind == self.chain_kind


def size_by_size(dataset: Dataset) -> tuple[Crossing, ...]:
    """The engine itself, on parts of which nothing is known but code and kind; sorted by pitch and code."""
    sizes = dataset.shelf.sizes
    bare = _bare(dataset, motorcycle_codes(dataset))
    ranges = _ranges(bare)
    evidence = weakest(
        [dataset.shelf.joint_rules[id_].evidence for id_ in THUMB_RULES if id_ in dataset.shelf.joint_rules]
    )
    return tuple(
        Crossing(
            link_code=link.record.size_code,
            link_kind=_kind(link.record.made_for),
            chain_code=chain.record.size_code,
            chain_kind=_kind(chain.record.kind),
            relation=size_relation(sizes[link.record.size_code], sizes[chain.record.size_code]),
            best=ranges[chain.id, link.id][0],
            worst=ranges[chain.id, link.id][1],
            evidence=evidence,
        )
        for link, chain in product(bare.links.values(), bare.chains.values())
    )


def motorcycle_codes(dataset: Dataset) -> tuple[str, ...]:
    """By pitch, then by code; industrial neighbours are no part of a club."""
    sizes = [size for size in dataset.shelf.sizes.values() if size.record.family == "motorcycle"]
    return tuple(
        size.code for size in sorted(sizes, key=lambda size: (size.dims["pitch"].nominal, size.code))
    )


def _bare(dataset: Dataset, codes: Iterable[str]) -> Dataset:
    """The same rules with other parts: one chain and one link of each code and kind, nothing measured."""
    pairs = list(product(codes, KINDS))
    seal_set = SealSet(shape="unknown")
    return replace(
        dataset,
        chains={f"{code}-{kind}": _chain(code, kind) for code, kind in pairs},
        links={f"{code}-{kind}": _link(code, kind) for code, kind in pairs},
        clips={},
        seals={_SEALS: Part("seal", _SEALS, seal_set, {})},
        bikes={},
        trials={},
    )


def _chain(code: str, kind: Kind) -> Part[Chain]:
    seal: Literal["none", "unknown"] = "none" if kind == "plain" else "unknown"
    return Part("chain", f"{code}-{kind}", Chain(size_code=code, kind=kind, seal=seal, state="as-made"), {})


def _link(code: str, kind: Kind) -> Part[Link]:
    """Clip and press are the commonest; without readings no other closure or fit is judged better."""
    record = Link(
        size_code=code,
        closure="clip",
        plate_fit="press",
        made_for=kind,
        seals=_SEALS if kind == "sealed" else "none",
        condition="new",
        half_link=False,
        flared=False,
    )
    return Part("link", f"{code}-{kind}", record, {})


def _ranges(bare: Dataset) -> Mapping[tuple[str, str], tuple[int, int]]:
    """(chain, link) -> best of bests and best of worsts over the ways to join them."""
    judge = Judge(bare, bench(bare))
    verdicts = judge.verdicts()
    found: dict[tuple[str, str], tuple[int, int]] = {}
    for at, (chain, link) in enumerate(_pairs(judge)):
        best, worst = int(verdicts.best[at]), int(verdicts.worst[at])
        before = found.get((chain, link), (best, worst))
        found[chain, link] = (min(before[0], best), min(before[1], worst))
    return found


def _pairs(judge: Judge) -> Iterator[tuple[str, str]]:
    chains, links = judge.on.chains, judge.on.links
    for chain, link in zip(judge.options.chain.tolist(), judge.options.link.tolist(), strict=True):
        yield chains[chain].id, links[link].id


def _kind(word: str) -> Kind:
    return "plain" if word == "plain" else "sealed"
