"""What a dry fit showed and what was read, where both cannot be true."""

from collections.abc import Iterator

import numpy as np

from generator.compute.fit.columns import HIGH, LOW
from generator.compute.fit.detail import Look
from generator.compute.fit.evaluate import row_values
from generator.compute.fit.result import Clash
from generator.compute.fit.tighten import Proof, Proofs
from generator.compute.fit.trials import Bound
from generator.model.reading import Reading
from generator.rules.rows import Row


def clashes(look: Look) -> tuple[Clash, ...]:
    """In the order of the dry fits and their answers, each answer once; empty where nothing contradicts."""
    proven = look.proven
    if proven is None:
        return ()
    found = tuple(_with_readings(look, proven)) or tuple(_with_one_another(look, proven))
    return tuple({clash.told: clash for clash in reversed(found)}.values())[::-1]


def _with_readings(look: Look, proven: Proofs) -> Iterator[Clash]:
    for row, told, bound in proven.seen:
        low, high = _known(look, row)
        if (told.low is not None and high < told.low) or (told.high is not None and low > told.high):
            yield Clash((_answer(bound),), _behind(look, row), (told.low, told.high), (low, high))


def _with_one_another(look: Look, proven: Proofs) -> Iterator[Clash]:
    """The answer that puts the least length of a row highest and the one that puts its greatest lowest."""
    for number in sorted({proof.row for proof in proven.of_rows}):
        of_row = [(proof, *_ends(look, proof)) for proof in proven.of_rows if proof.row == number]
        lowest = max(of_row, key=lambda each: each[1])
        highest = min(of_row, key=lambda each: each[2])
        if lowest[1] > highest[2]:
            told = tuple(dict.fromkeys(_answer(proof.bound) for proof in (lowest[0], highest[0])))
            behind = [r for proof in (lowest[0], highest[0]) for r in _behind(look, proof.rest)]
            yield Clash(told, tuple(dict.fromkeys(behind)))


def _ends(look: Look, proof: Proof) -> tuple[float, float]:
    low, high = _known(look, proof.rest)
    told = proof.proven
    return (
        -np.inf if told.low is None else low + told.low,
        np.inf if told.high is None else high + told.high,
    )


def _known(look: Look, row: Row) -> tuple[int, int]:
    """Of a row by the readings alone; open ends are far beyond any length."""
    columns = {name: look.closely.columns[name].take(np.array([look.at])) for name, _ in row.terms}
    ends = row_values({0: row}, columns, 1).ends[0]
    return int(ends[LOW, 0]), int(ends[HIGH, 0])


def _answer(bound: Bound) -> tuple[str, str]:
    return bound.trial, bound.field


def _behind(look: Look, row: Row) -> tuple[Reading, ...]:
    found = (behind for name, _ in row.terms for behind in look.readings(name))
    return tuple(dict.fromkeys(behind.reading for behind in found if behind.quantity is not None))
