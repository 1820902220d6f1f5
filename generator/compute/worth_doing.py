"""What is worth doing on an evening at the bench: acts for whole clubs, in the order that ends most open pairs."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.compute.acts import MOST_LOOKS, Act
from generator.compute.fit.result import PairFit
from generator.compute.grouped import grouped
from generator.compute.next_act import Acts
from generator.model.reading import Reading

PairId = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Worth:
    """One handling of one part or joint, and the open pairs (chain, link) it is the next step of."""

    act: Act
    pairs: tuple[PairId, ...]


@dataclass(frozen=True, slots=True)
class Evening:
    """Everything worth doing, most helpful first, and the open pairs that nothing of the club can settle."""

    worth: tuple[Worth, ...]
    stand: tuple[PairId, ...]


def worth_doing(fits: Iterable[PairFit], acts: Acts) -> Evening:
    """Of pairs of one family that are not decided; a joint that is proper but untried is asked last.  `acts` are those
    of these pairs, or of more."""
    found, stand = [], []
    for fit in fits:
        if not fit.own_page:
            continue
        act = acts.get((fit.chain, fit.link))
        if act is None and (fit.refused is not None or fit.best != fit.worst):
            stand.append((fit.chain, fit.link))
        elif act is not None:
            found += [(each, (fit.chain, fit.link)) for each in _by_part(act)]
    groups = grouped(found, lambda pair: pair[0].key).values()
    worth = [_together(group) for group in groups]
    return Evening(tuple(sorted(worth, key=_order)), tuple(stand))


def _by_part(act: Act) -> Iterator[Act]:
    """A sheet of looks is one handling of each part it speaks of, whatever pair asked for it."""
    if act.kind != "look":
        yield act
        return
    parts = grouped(act.ask, lambda reading: (reading.kind, reading.id))
    for (kind, id_), ask in parts.items():
        yield replace(act, part=(kind, id_), ask=tuple(ask))


def _together(group: Sequence[tuple[Act, PairId]]) -> Worth:
    first = group[0][0]
    ask = list(dict.fromkeys(reading for act, _ in group for reading in act.ask))
    return Worth(replace(first, ask=_few(first, ask)), tuple(dict.fromkeys(pair for _, pair in group)))


def _few(act: Act, ask: Sequence[Reading]) -> tuple[Reading, ...]:
    return tuple(ask[:MOST_LOOKS] if act.kind == "look" else ask)


def _order(worth: Worth) -> tuple[object, ...]:
    """Pairs a minute, then by name."""
    return (-len(worth.pairs) / worth.act.effort, worth.act.kind, worth.act.part)
