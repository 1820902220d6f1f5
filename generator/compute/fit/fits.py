"""Every pair of chain and link with its verdict: the best option of each, looked at closely."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.compute.fit.chance import chance_percent
from generator.compute.fit.clash import clashes
from generator.compute.fit.columns import Ints, Mask
from generator.compute.fit.detail import look_at, option_fit
from generator.compute.fit.evaluate import GROUPS_THAT_ADD_UP
from generator.compute.fit.judge import Closely, Judge, Verdicts, in_order
from generator.compute.fit.next_reading import measure_next
from generator.compute.fit.options import (
    AS_MADE,
    NOTHING,
    SEALS,
    SEATS,
    bench,
    pair_numbers,
    restricted,
    same_family,
)
from generator.compute.fit.plans import Plans
from generator.compute.fit.press_to import flare_of, over_neighbour, press_to
from generator.compute.fit.refused import why_refused
from generator.compute.fit.result import MeasureNext, OptionFit, PairFit
from generator.compute.fit.runs_now import runs_now
from generator.compute.fit.without_clip import without_clip
from generator.compute.grouped import some_at_a_time
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Evidence, weakest
from generator.model.shipped import GET_HOME, NO_GO, PROPER

# pairs whose options are looked at together: many enough for arrays, few enough to hold every number behind them
LOOKED_AT = 2048
DISAGREE = "the readings and the dry fit contradict each other"


@dataclass(frozen=True, slots=True)
class _Choice:
    """By pair number (chain x links + link): the chosen option, the best option of all, the best
    with the link's own clip (-1: none), the best rung of all options and of all but the chosen one."""

    chosen: Ints
    brightest: Ints
    own_clip: Ints
    best: Ints
    other_best: Ints
    # an option whose readings and dry fits contradict each other (-1: none)
    contradicted: Ints
    # the joint that runs, where the chain runs with the link (-1: none)
    running: Ints
    # best and worst of each pair if nothing is said about its clip, where that is asked
    clip_less: tuple[Ints, Ints] | None


def fit_table(
    dataset: Dataset,
    chains: Sequence[str] | None = None,
    links: Sequence[str] | None = None,
    plans: Plans | None = None,
) -> tuple[PairFit, ...]:
    """The verdict on every pair (of the named chains and links, where given); `plans` are those of another
    table of the same club."""
    judge = Judge(dataset, restricted(bench(dataset), chains, links), plans=plans)
    return fits_of(judge, judge.verdicts())


def fits_of(judge: Judge, verdicts: Verdicts) -> tuple[PairFit, ...]:
    """The best option of each pair, looked at closely."""
    choice = _choose(judge, verdicts)
    return _pairs(judge, choice, range(len(judge.on.chains) * len(judge.on.links)))


def unsettled_fits(dataset: Dataset) -> tuple[PairFit, ...]:
    """Those of the whole table but for what is settled and not proper: about these nothing is left to find out.  What a
    pair is worth without its clip is not reckoned, as no act changes it."""
    judge = Judge(dataset, bench(dataset))
    verdicts = judge.verdicts()
    choice = _choose(judge, verdicts, clip_less=False)
    numbers = range(len(judge.on.chains) * len(judge.on.links))
    return _pairs(judge, choice, [n for n in numbers if not _settled(judge, verdicts, choice, n)])


def _settled(judge: Judge, verdicts: Verdicts, choice: _Choice, number: int) -> bool:
    """Without a look: one rung is left and it is not proper."""
    chosen, best = int(choice.chosen[number]), int(choice.best[number])
    if chosen < 0 or choice.contradicted[number] >= 0 or not best == verdicts.worst[chosen] > PROPER:
        return False
    return best == NO_GO or why_refused(judge.dataset, *_parts(judge, number)) is None


def _parts(judge: Judge, number: int) -> tuple[Part[Chain], Part[Link]]:
    c, li = divmod(number, len(judge.on.links))
    return judge.on.chains[c], judge.on.links[li]


def _pairs(judge: Judge, choice: _Choice, numbers: Sequence[int]) -> tuple[PairFit, ...]:
    return tuple(
        fit for some in some_at_a_time(numbers, LOOKED_AT, lambda _: 1) for fit in _some(judge, choice, some)
    )


def _some(judge: Judge, choice: _Choice, numbers: Sequence[int]) -> Iterator[PairFit]:
    looks = _Looks(judge, choice, np.array(numbers, dtype=np.int64))
    return (_pair(judge, looks, choice, number) for number in numbers)


def explain_pair(dataset: Dataset, chain: str, link: str) -> tuple[PairFit, tuple[OptionFit, ...]]:
    """One pair and all its options in order of preference, best first."""
    judge = Judge(dataset, restricted(bench(dataset), [chain], [link]))
    verdicts = judge.verdicts()
    fits: dict[int, OptionFit] = {}
    for closely in judge.closely(np.arange(len(judge.options))):
        fits |= {int(n): option_fit(judge, closely, at) for at, n in enumerate(closely.index)}
    ordered = tuple(fits[int(n)] for n in in_order(judge, verdicts))
    return fits_of(judge, verdicts)[0], ordered


def _choose(judge: Judge, verdicts: Verdicts, clip_less: bool = True) -> _Choice:
    options, on = judge.options, judge.on
    pairs = len(on.chains) * len(on.links)
    pair = pair_numbers(on, options)
    order = in_order(judge, verdicts)
    own = np.array([on.clip_at(link.record.clip) for link in on.links], dtype=np.int64)
    with_own = order[(own[options.link[order]] == options.clip[order]) & (options.clip[order] >= 0)]
    by_best = order[np.argsort(verdicts.best[order], kind="stable")]
    chosen = _first(pair, order, pairs)
    brightest = _first(pair, by_best, pairs)
    best = np.where(brightest >= 0, verdicts.best[brightest] if len(options) else 0, 3)
    contradicted = _first(pair, order[verdicts.contradicted[order]], pairs)
    other_best = np.full(pairs, NO_GO, dtype=np.int64)
    other = np.ones(len(options), dtype=np.bool_)
    other[chosen[chosen >= 0]] = False
    others = np.flatnonzero(other)
    np.minimum.at(other_best, pair[others], verdicts.best[others])
    return _Choice(
        chosen,
        brightest,
        _first(pair, with_own, pairs),
        best,
        other_best,
        contradicted,
        _first(pair, order[_as_it_runs(judge)[order]], pairs),
        without_clip(judge) if clip_less else None,
    )


def _first(pair: Ints, order: Ints, pairs: int) -> Ints:
    """The first option of each pair in the given order, -1 where it has none."""
    first = np.full(pairs, -1, dtype=np.int64)
    reverse = order[::-1]
    first[pair[reverse]] = reverse
    return first


def _as_it_runs(judge: Judge) -> Mask:
    """The options that are the joint a chain runs with: this link and clip, and what is said to lie between."""
    on, options = judge.on, judge.options
    found = np.zeros(len(options), dtype=bool)
    for c, chain in enumerate(on.chains):
        record = chain.record
        li = next((i for i, link in enumerate(on.links) if link.id == record.own_link), NOTHING)
        if not record.in_use or li == NOTHING:
            continue
        clip = on.clip_at(record.own_clip or on.links[li].record.clip)
        seals = [SEALS.index(record.own_seals)] if record.own_seals in SEALS else list(AS_MADE)
        found |= (
            (options.chain == c)
            & (options.link == li)
            & ((options.clip == clip) | (options.clip == NOTHING))
            & np.isin(options.seals, seals)
            & (options.seat != SEATS.index("clip"))
            & (options.spacer == NOTHING)
        )
    return found


class _Looks:
    """The options that pages show, looked at closely once each."""

    def __init__(self, judge: Judge, choice: _Choice, numbers: Ints) -> None:
        shown = (choice.chosen, choice.brightest, choice.own_clip, choice.running, choice.contradicted)
        # what numpy has for sets would load its masked arrays, a twentieth of one answer's time
        wanted = np.array(
            sorted({number for each in shown for number in each[numbers].tolist()}), dtype=np.int64
        )
        self.at: dict[int, tuple[Closely, int]] = {}
        self.fits: dict[int, OptionFit] = {}
        for closely in judge.closely(wanted[wanted >= 0]):
            for at, number in enumerate(closely.index.tolist()):
                self.at[number] = (closely, at)
                self.fits[number] = option_fit(judge, closely, at)


def _pair(judge: Judge, looks: _Looks, choice: _Choice, number: int) -> PairFit:
    chain, link = _parts(judge, number)
    own_page = same_family(judge.dataset, chain, link)
    tried = judge.tried.get((chain.id, link.id), ())
    doubted = int(choice.contradicted[number])
    refused = why_refused(judge.dataset, chain, link) or (DISAGREE if doubted >= 0 else None)
    # nothing hides a no-go that other facts already prove
    if refused is not None and not _proven_no_go(looks, choice, number):
        clash = clashes(look_at(judge, *looks.at[doubted])) if refused == DISAGREE else ()
        return PairFit(chain.id, link.id, own_page, refused=refused, tried=tried, clashes=clash)
    chosen, own = int(choice.chosen[number]), int(choice.own_clip[number])
    running = int(choice.running[number])
    option = looks.fits[chosen]
    closely, at = looks.at[chosen]
    best = int(choice.best[number])
    pair = PairFit(
        chain.id,
        link.id,
        own_page,
        best=best,
        worst=option.worst,
        option=option,
        own_clip_option=looks.fits[own] if own >= 0 else None,
        chance_percent=chance_percent(closely, at, look_at(judge, closely, at).readings)
        if _decides_alone(option, int(choice.other_best[number]))
        else None,
        evidence=pair_evidence(judge, option),
        tried=tried,
        runs_now=runs_now(judge.dataset, chain, link, looks.fits[running]) if running >= 0 else None,
        press_to=press_to(judge.dataset, chain, link, option),
        beside=over_neighbour(chain),
        flare=flare_of(judge.dataset, link),
        pieces=link.record.count,
        pieces_tried=min(link.record.count, sum(not each.failed for each in tried)),
        without_clip=(int(choice.clip_less[0][number]), int(choice.clip_less[1][number]))
        if choice.clip_less is not None
        else None,
    )
    return replace(pair, measure_next=_next(judge, looks, choice, number)) if best < option.worst else pair


def _proven_no_go(looks: _Looks, choice: _Choice, number: int) -> bool:
    """By what no reading that is doubted has a part in."""
    chosen = int(choice.chosen[number])
    if chosen < 0 or choice.best[number] < NO_GO:
        return False
    return choice.contradicted[number] < 0 or looks.fits[chosen].deciding_check.category is not None


def _decides_alone(option: OptionFit, other_best: int) -> bool:
    """Whether the chances of the deciding check are those of the pair: wherever it lies within its interval, its
    rung is the pair's, as no other check can be worse, no faults can add up and no other way can be better."""
    check = option.deciding_check
    others = [each for each in option.checks if each is not check]
    if any(each.worst > check.best for each in others) or other_best < check.worst:
        return False
    strained = {each.group for each in others if each.worst >= GET_HOME} | {check.group}
    adds_up = len(strained) >= GROUPS_THAT_ADD_UP and check.best <= GET_HOME <= check.worst
    return not adds_up


def _next(judge: Judge, looks: _Looks, choice: _Choice, number: int) -> MeasureNext | None:
    """From the chosen option where it is open, else from the one that might be better."""
    for option in (int(choice.chosen[number]), int(choice.brightest[number])):
        closely, at = looks.at[option]
        found = measure_next(look_at(judge, closely, at))
        if found is not None:
            chosen = option == int(choice.chosen[number])
            sure = chosen and found.decides is not None and int(choice.other_best[number]) >= found.decides
            return replace(found, settles_pair=sure)
    return None


def pair_evidence(judge: Judge, option: OptionFit) -> Evidence:
    """The weakest of the readings and of the rules that judged them."""
    rules = judge.plans.rules
    return weakest(
        [
            *(check.evidence for check in option.checks),
            *(rules[check.rule_id].evidence for check in option.checks),
        ]
    )
