"""What to measure next: the reading that would settle most, how close it must be, and what is open then."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.compute.fit.detail import Look
from generator.compute.fit.result import MeasureNext
from generator.compute.fit.what_if import Foreseen, Guess, foresee, settling
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.reading import Reading
from generator.rules.joined import Behind
from generator.rules.plan import CheckPlan

# asked-for closeness is given in steps a caliper shows; where none of them will do, in those of a micrometer
STEP_NM, FINE_STEP_NM = NM_PER_MM // 100, NM_PER_MM // 1000
# so many steps are looked at; a reading that may be coarser than that is told the coarsest of them
MOST_STEPS = 40
# how close no instrument reads need not be told finely
FEW_STEPS_NM = tuple(step * FINE_STEP_NM for step in (1, 2, 5, 10, 20, 30, 50, 80, 120, 200))
# readings taken again, each to within so many nm
Again = Sequence[tuple[Behind, int]]


def measure_next(look: Look) -> MeasureNext | None:
    """For the deciding check where it is open, else for the open check that could be worst."""
    left = Foreseen(look.closely.judged).still_open(look.at)
    if not left:
        return None
    deciding = int(look.closely.judged.deciding[look.at])
    return _for_check(look, deciding if deciding in left else left[0])


def _for_check(look: Look, at: int) -> MeasureNext | None:
    """With what is open afterwards, which takes a look at the other checks too."""
    check = look.closely.plan.checks[at]
    asked = _asked(look, check)
    if asked:
        return _with_the_others(look, _never_read(look, check, asked))
    return _closer(look, at) if check.category is None else None


def _reading_for(look: Look, at: int) -> Reading | None:
    """Only which reading that would be."""
    check = look.closely.plan.checks[at]
    asked = _asked(look, check)
    if asked:
        return asked[0]
    blurs = _blurs(look, at) if check.category is None else []
    if not blurs:
        return None
    first, *_ = _settled_by(look, at, blurs) or [(blurs[0], 0)]
    return first[0].reading


def _asked(look: Look, check: CheckPlan) -> list[Reading]:
    """What was never read, or never answered."""
    if check.category is not None:
        return [look.asks[check.category]] if check.category in look.asks else []
    return list(dict.fromkeys(_missing(look, check)))


def _never_read(look: Look, check: CheckPlan, asked: Sequence[Reading]) -> MeasureNext:
    """How close it must be depends on what it reads, so the best that can be had is named."""
    first, *others = asked
    within = look.closest(first)
    also = tuple((reading, look.closest(reading)) for reading in others)
    return MeasureNext(first, within, "question" if within is None else "reachable", check.id, also)


def _missing(look: Look, check: CheckPlan) -> Iterator[Reading]:
    rows = dict.fromkeys(row for clause in _undecided(look, check) for row in clause)
    for symbol in dict.fromkeys(name for row in rows for name, _ in look.closely.plan.rows[row].terms):
        if look.closely.columns[symbol].missing[look.at]:
            yield from (b.reading for b in look.readings(symbol) if b.quantity is None)


def _undecided(look: Look, check: CheckPlan) -> Iterator[tuple[int, ...]]:
    """What may or may not be kept: what is kept anyway, or broken anyway, no reading changes."""
    for clause in dict.fromkeys(clause for asked in check.asked for clause in asked):
        lows, highs = zip(*(_ends(look, row) for row in clause), strict=True)
        if max(lows) < 0 <= max(highs):
            yield clause


def _ends(look: Look, row: int) -> tuple[int, int]:
    low, _, high = look.closely.values.ends[row][:, look.at].tolist()
    return low, high


def _with_the_others(look: Look, found: MeasureNext) -> MeasureNext:
    """What is open beside it and does not rest on it stays open, whatever is found."""
    asked = {found.reading, *(reading for reading, _ in found.also)}
    left = Foreseen(look.closely.judged).still_open(look.at)
    return _then(look, found, [i for i in left if not asked & _rests_on(look, i)])


def _rests_on(look: Look, at: int) -> set[Reading]:
    check = look.closely.plan.checks[at]
    if check.category is not None:
        return {look.asks[check.category]} if check.category in look.asks else set()
    return {each.reading for symbol in check.symbols for each in look.readings(symbol)}


def _then(look: Look, found: MeasureNext, left: Sequence[int]) -> MeasureNext:
    names = tuple(look.closely.plan.checks[i].id for i in left)
    return replace(found, then_open=names, then=_reading_for(look, left[0]) if left else None)


def _closer(look: Look, at: int) -> MeasureNext | None:
    """The reading that blurs the check most, of those that settle it as close as an instrument can read; else the
    fewest that settle it together; else no instrument does."""
    blurs = _blurs(look, at)
    if not blurs:
        return None
    again = _settled_by(look, at, blurs)
    if again is None:
        return _out_of_reach(look, at, blurs[0])
    if len(again) == 1:
        return _as_wide_as_will_do(look, at, again[0])
    (one, within), *others = again
    also = tuple((each.reading, w) for each, w in others)
    return _after(
        look, MeasureNext(one.reading, within, "together", look.closely.plan.checks[at].id, also), again
    )


def _settled_by(look: Look, at: int, blurs: Sequence[Behind]) -> Again | None:
    """The reading, or the fewest, that settle the check once they are read as close as can be."""
    can = [(each, w) for each in blurs if (w := look.closest(each.reading)) and w < _half(each)]
    guesses = [*([each] for each in can), *(can[:n] for n in range(2, len(can) + 1))]
    settles = settling(look, at, [_read(look, guess) for guess in guesses])
    return next((guess for guess, settled in zip(guesses, settles, strict=True) if settled), None)


def _as_wide_as_will_do(look: Look, at: int, can: tuple[Behind, int]) -> MeasureNext:
    each, closest = can
    best = max(_wide_enough(look, at, each, [closest, *(w for w in _steps(_half(each)) if w > closest)]))
    found = MeasureNext(each.reading, best, "needed", look.closely.plan.checks[at].id)
    return _after(look, found, [(each, best)])


def _out_of_reach(look: Look, at: int, each: Behind) -> MeasureNext:
    steps = [step for step in FEW_STEPS_NM if step < _half(each)]
    # what the finest does not settle no coarser one does
    reachable = _wide_enough(look, at, each, steps[:1])
    needed = max(_wide_enough(look, at, each, steps)) if reachable else None
    return MeasureNext(each.reading, None, "dry-fit", look.closely.plan.checks[at].id, needed=needed)


def _wide_enough(look: Look, at: int, each: Behind, widths: Sequence[int]) -> list[int]:
    """The widths within which the reading settles the check."""
    settles = settling(look, at, [_read(look, [(each, w)]) for w in widths])
    return [w for w, settled in zip(widths, settles, strict=True) if settled]


def _after(look: Look, found: MeasureNext, again: Again) -> MeasureNext:
    seen = foresee(look, [_read(look, again)])
    left = seen.still_open(0)
    decides = None if left else int(seen.judged.worst[0])
    return replace(_then(look, found, left), decides=decides)


def _steps(below: int) -> list[int]:
    """Steps of a caliper narrower than `below`, and those of a micrometer under the first of them."""
    coarse = range(STEP_NM, below, STEP_NM)
    return [*range(FINE_STEP_NM, min(STEP_NM, below), FINE_STEP_NM), *coarse[:MOST_STEPS]]


def _read(look: Look, again: Again) -> Guess:
    """Readings that come out where they were, each to within its own plus-minus."""
    return look.read_again(
        {each.reading: _around(each.quantity, w) for each, w in again if each.quantity is not None}
    )


def _around(known: Quantity, within: int) -> Quantity:
    low, high = max(known.nominal - within, 0), known.nominal + within
    return Quantity(low, known.nominal, high, known.evidence, known.source, known.text)


def _blurs(look: Look, at: int) -> list[Behind]:
    """The readings with a width behind the row that straddles a limit by most, those that blur it most first."""
    blurred = _blurred_row(look, at)
    if blurred is None:
        return []
    row = look.closely.plan.rows[blurred]
    found: dict[Reading, tuple[int, Behind]] = {}
    for symbol, coefficient in row.terms:
        for each in look.readings(symbol):
            share = abs(coefficient) * each.weight * _half(each)
            if share > 0:
                found[each.reading] = (found.get(each.reading, (0, each))[0] + int(share), each)
    return [each for _, each in sorted(found.values(), key=lambda item: -item[0])]


def _blurred_row(look: Look, at: int) -> int | None:
    """The row that straddles zero by most among those that keep the check from its better rung.

    None where no row does: a check that is decided may be open again once a reading wider to one side than to the
    other is taken as coarse to both."""
    check = look.closely.plan.checks[at]
    rung = max(int(look.closely.judged.check_worst[at][look.at]) - 1, 0)
    rows = [row for clause in _undecided(look, check) if clause in check.asked[rung] for row in clause]
    return min(rows, key=lambda row: _straddling(*_ends(look, row)), default=None)


def _straddling(low: int, high: int) -> tuple[bool, int]:
    """Those that straddle zero first, then the lowest."""
    return not low < 0 <= high, low


def _half(each: Behind) -> int:
    """How far the reading may lie from its nominal, to the wider side."""
    known = each.quantity
    if known is None or known.evidence == "unknown":
        return 0  # bounded, but not read: there is nothing to read again
    return max(known.nominal - known.low, known.high - known.nominal)
