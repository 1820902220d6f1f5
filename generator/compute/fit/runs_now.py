"""The verdict on a joint that runs now, closed: what its use proves, and what one look since it was closed adds."""

from collections.abc import Iterable, Iterator, Mapping

from generator.compute.fit.evaluate import GROUPS_THAT_ADD_UP
from generator.compute.fit.result import CheckFit, OptionFit, RunsNow
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.shipped import GET_HOME, LAST_RESORT, PROPER, RUNGS
from generator.rules.kin import by_make, came_with

TABLE = "in_use"
LOOKS = ("plates_level", "clip_seated", "bends_freely", "seals_whole", "plate_loose", "rub_marks")
# what is only asked of a joint that is opened and closed again
OF_OPENING = {
    *(("clip-history", word) for word in ("taken-off", "off-once")),
    *(("plate-pressed-before", word) for word in ("once", "twice")),
    ("flared-before", "flared"),
}
# the groups in which it has shown that it holds, as it runs
PROVEN_BY_USE = ("place", "pin", "clip", "seal")


def runs_now(dataset: Dataset, chain: Part[Chain], link: Part[Link], option: OptionFit) -> RunsNow:
    """`option` is the joint as it is closed.  Use proves that it holds to get home; what came with the chain and was
    looked at is as good as it was made, as far as those groups go."""
    record = chain.record
    looks = {
        name: look
        for name, look in looks_of(chain).items()
        if name != "seals_whole" or record.kind != "plain"
    }
    trusted = came_with(chain, link) and all(look == GOOD[name] for name, look in looks.items())
    cap = PROPER if trusted else GET_HOME
    ranges = [*_capped(option.checks, cap), *_looked_at(dataset, chain, link, looks)]
    return RunsNow(
        _added_up([(group, best) for group, best, _ in ranges]),
        _added_up([(group, worst) for group, _, worst in ranges]),
        record.in_use_since,
        record.looked_on,
        tuple(name for name, look in looks.items() if look == "not-looked"),
    )


GOOD = {**dict.fromkeys(LOOKS, "yes"), "plate_loose": "no", "rub_marks": "no"}


def looks_of(chain: Part[Chain]) -> Mapping[str, str]:
    """A look from before the joint was last closed was at another joint."""
    record = chain.record
    stale = None not in (record.looked_on, record.in_use_since) and record.looked_on < record.in_use_since  # type: ignore[operator]
    answers = {name: None if stale else getattr(record, name) for name in LOOKS}
    return {name: "not-looked" if a is None else "yes" if a else "no" for name, a in answers.items()}


def _capped(checks: Iterable[CheckFit], cap: int) -> Iterator[tuple[str, int, int]]:
    """What is capped by its use alone counts in no group of small faults."""
    for check in checks:
        if (check.id, check.category) in OF_OPENING or check.group == "evidence":
            continue
        if check.group in PROVEN_BY_USE and check.worst > cap:
            yield "evidence", min(check.best, cap), cap
        else:
            yield check.group, check.best, check.worst


def _looked_at(
    dataset: Dataset, chain: Part[Chain], link: Part[Link], looks: Mapping[str, str]
) -> Iterator[tuple[str, int, int]]:
    words = {
        **looks,
        "came-with": "came-with" if by_make(chain, link) and came_with(chain, link) else "other",
    }
    for rule in dataset.shelf.other_rules.get(TABLE, {}).values():
        if rule.category in words:
            ranks = [RUNGS.index(rung) for rung in rule.rungs[words[rule.category]]]
            yield "evidence" if len(ranks) > 1 else rule.group, min(ranks), max(ranks)


def _added_up(rungs: list[tuple[str, int]]) -> int:
    worst = max((rung for _, rung in rungs), default=PROPER)
    groups = {group for group, rung in rungs if rung >= GET_HOME} - {"evidence"}
    return LAST_RESORT if worst == GET_HOME and len(groups) >= GROUPS_THAT_ADD_UP else worst
