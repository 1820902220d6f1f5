"""All ways to join each pair, each with its range and what decides it, but without every number."""

from collections.abc import Mapping
from dataclasses import dataclass

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
    for number in in_order(judge, verdicts).tolist():
        link = on.links[int(options.link[number])]
        clip, seal_set = int(options.clip[number]), int(options.seal_set[number])
        spacer = int(options.spacer[number])
        way = Way(
            closure=link.record.closure,
            clip=None if clip == NOTHING else on.clips[clip].id,
            seals=SEALS[int(options.seals[number])],
            seal_set=None if seal_set == NOTHING else on.seals[seal_set].id,
            seat=SEATS[int(options.seat[number])],
            spacer=None if spacer == NOTHING else on.seals[spacer].id,
            best=int(verdicts.best[number]),
            worst=int(verdicts.worst[number]),
            rule_id=rule_ids[int(verdicts.deciding[number])],
            adds_up=bool(verdicts.adds_up[number]),
        )
        found.setdefault((on.chains[int(options.chain[number])].id, link.id), []).append(way)
    return {pair: tuple(found[pair]) for pair in sorted(found)}
