"""All ways to join each pair, each with its range and what decides it, but without every number."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from generator.compute.fit.judge import Judge, Verdicts, in_order
from generator.compute.fit.options import NOTHING, SEALS, SEATS


@dataclass(frozen=True, slots=True)
class Way:
    """One way to join a pair, seat and spacer as in an option; `rule_id` names the deciding rule."""

    closure: str
    clip: str | None
    seals: str
    seal_set: str | None
    seat: str
    spacer: str | None
    best: int
    worst: int
    rule_id: str
    adds_up: bool


Ways = Mapping[tuple[str, str], tuple[Way, ...]]


def ways_by_pair(judge: Judge, verdicts: Verdicts) -> Ways:
    """Pairs that are refused have none; a pair stopped by its pitch has one."""
    on, options = judge.on, judge.options
    rule_ids = tuple(judge.plans.rules)
    found: dict[tuple[str, str], list[Way]] = {}
    # a link's ways come out alike on most chains
    alike: dict[tuple[Any, ...], Way] = {}

    def way(link: int, clip: int, seals: int, seal_set: int, seat: int, spacer: int, *judged: Any) -> Way:
        best, worst, deciding, adds_up = judged
        return Way(
            closure=on.links[link].record.closure,
            clip=None if clip == NOTHING else on.clips[clip].id,
            seals=SEALS[seals],
            seal_set=None if seal_set == NOTHING else on.seals[seal_set].id,
            seat=SEATS[seat],
            spacer=None if spacer == NOTHING else on.seals[spacer].id,
            best=best,
            worst=worst,
            rule_id=rule_ids[deciding],
            adds_up=adds_up,
        )

    order = in_order(judge, verdicts)
    parts = (options.link, options.clip, options.seals, options.seal_set, options.seat, options.spacer)
    judged = (verdicts.best, verdicts.worst, verdicts.deciding, verdicts.adds_up)
    rows = zip(*(each[order].tolist() for each in (*parts, *judged)), strict=True)
    for chain, row in zip(options.chain[order].tolist(), rows, strict=True):
        if row not in alike:
            alike[row] = way(*row)
        found.setdefault((on.chains[chain].id, on.links[row[0]].id), []).append(alike[row])
    return {pair: tuple(found[pair]) for pair in sorted(found)}
