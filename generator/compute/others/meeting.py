"""Parts that meet, as the evaluator wants them: a value for each symbol, the case, closed words."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache

from generator.compute.fit.result import Met
from generator.compute.fit.trials import Bound
from generator.compute.others.result import Relation
from generator.model.dataset import Part
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.model.record import Record
from generator.rules.joined import ONE, Behind

# why a part cannot be judged: (is it so, reason)
Reasons = Iterable[tuple[bool, str]]


@dataclass(frozen=True, slots=True)
class Value:
    """What is known of one symbol, and the readings it rests on."""

    quantity: Quantity | None
    behind: tuple[Behind, ...]


@dataclass(frozen=True, slots=True)
class Meeting:
    """`asks` names what to find out where a category is open; `stopped_by` limits the rules that are asked."""

    relation: Relation
    parts: tuple[Met, ...]
    refused: str | None = None
    values: Mapping[str, Value] = field(default_factory=dict)
    case: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    asks: Mapping[str, Reading] = field(default_factory=dict)
    proven: Sequence[Bound] = ()
    stopped_by: tuple[str, ...] = ()
    # evidence that makes a check proper where readings leave it open, by the word that rules name it with
    grounds: tuple[str, ...] = ()
    # for symbols that more than one reading stands behind: all values, if readings were others
    values_if: Callable[[Mapping[Reading, Quantity]], Mapping[str, Value]] | None = None

    def behind(self, symbol: str) -> Sequence[Behind]:
        return self.values[symbol].behind

    def questions(self) -> Mapping[str, Reading]:
        return self.asks

    def read_again(self, again: Mapping[Reading, Quantity]) -> Mapping[str, Quantity | None]:
        """What each symbol would be if readings were others; one reading alone stands behind a symbol, unless the
        meeting says how its values come about."""
        if self.values_if is not None:
            return {symbol: value.quantity for symbol, value in self.values_if(again).items()}
        only = {symbol: value.behind[0].reading for symbol, value in self.values.items()}
        return {symbol: again[reading] for symbol, reading in only.items() if reading in again}


def first_reason(reasons: Reasons) -> str | None:
    return next((reason for wrong, reason in reasons if wrong), None)


def met(*parts: Part[Record]) -> tuple[Met, ...]:
    return tuple(_met(part.kind, part.id) for part in parts)


# a part meets thousands of others
_met = cache(Met)


def read(part: Part[Record], field_name: str) -> Value:
    """A dimension of a part as it was read."""
    return of_quantity(part.kind, part.id, field_name, part.dims.get(field_name))


def of_quantity(kind: str, id_: str, field_name: str, quantity: Quantity | None) -> Value:
    return Value(quantity, (Behind(Reading(kind, id_, field_name), ONE, quantity),))


def known(*values: Value) -> str:
    """The word of a condition that asks whether all of these are there."""
    return "unknown" if any(value.quantity is None for value in values) else "known"
