"""What a dry fit and the readings say against each other, and which of them to take again."""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import Clash, PairFit
from generator.compute.grouped import grouped
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.render.base.lengths import ShownLength, shown_high, shown_length, shown_low, shown_span
from generator.render.say.days import day_in_words
from generator.render.say.names import listed, reading_name
from generator.render.say.said import Said

LEAST = NM_PER_MM // 1000


def clash_sentences(dataset: Dataset, fit: PairFit) -> tuple[Said, ...]:
    return tuple(tuple(_sentence(dataset, clash)) for clash in fit.clashes)


def measure_again(dataset: Dataset, fit: PairFit) -> str:
    """One of the two was written down wrongly."""
    readings = dict.fromkeys(reading for clash in fit.clashes for reading in clash.readings)
    if not readings:
        return "Measure again and try again: one of the two was written down wrongly."
    names = listed([f"the {reading_name(dataset, reading)}" for reading in readings])
    return f"Measure again {names}, or try it again: one of the two was written down wrongly."


def _sentence(dataset: Dataset, clash: Clash) -> Iterator[str | ShownLength]:
    by_trial = grouped(clash.told, lambda told: told[0])
    yield "; ".join(_answers(dataset, trial, told) for trial, told in by_trial.items())
    if clash.proven is None or clash.read is None:
        yield ". With the readings these cannot all be true."
        return
    low, high = clash.proven
    if low is not None and high is not None:
        yield from (", which asks for ", shown_span(low, high))
    elif high is not None:
        yield from (", which asks for ", shown_high(high), " or less")
    elif low is not None and low > LEAST:
        yield from (", which asks for ", shown_low(low), " or more")
    else:
        yield ", which asks for some room"
    yield from ("; the readings leave ", shown_span(*clash.read), ".")


def _answers(dataset: Dataset, trial: str, told: Sequence[tuple[str, str]]) -> str:
    day = day_in_words(dataset.trials[trial].record.on)
    return f"Dry fit {trial} ({day}): {listed([_answer(dataset, *each) for each in told])}"


def _answer(dataset: Dataset, trial: str, field: str) -> str:
    facts, felt = dataset.trials[trial], dataset.shelf.dry_fits.values()
    if field in facts.dims:
        says = next(each.says for each in felt if field in each.reads)
        return f"{shown_length(facts.dims[field].nominal).mm} {says}"
    answered = getattr(facts.record, field)
    return next(each.says for each in felt if (each.answer, each.is_so) == (field, answered))
