"""The facts of a part that are not readings: what it is, how many, where it is kept."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.model.dataset import Part
from generator.model.record import Measured, Record
from generator.render.say.said import Said, capital

WORDS: Mapping[str, str] = {
    "clip-slip": "spring clip, plate slides on",
    "clip-press": "spring clip, plate pressed on",
    "rivet": "riveted",
    "clip": "spring clip",
    "screw": "screwed",
    "endless": "endless",
    "slip": "slides on by hand",
    "press": "pressed on",
    "press-to-shoulder": "pressed on as far as a shoulder",
    "unknown": "not known",
}


@dataclass(frozen=True, slots=True)
class Fact:
    """A name and what is known; `to` is an address of the handbook."""

    name: str
    said: Said
    to: str = ""


@dataclass(frozen=True, slots=True)
class Anchor:
    """A word that leads somewhere."""

    text: str
    to: str


def sentence(*parts: str | None) -> str:
    """`Sealed 520 of the blue tags, 520, sealed.`: what is there, with a capital and a full stop."""
    text = ", ".join(part for part in parts if part and part != "unknown")
    return f"{capital(text).rstrip('.')}." if text else ""


def fact(name: str, value: object, to: str = "") -> Fact:
    """`as written` unless the word is one of the closed lists."""
    text = str(value)
    return Fact(name, (WORDS.get(text, text),), to)


def present(facts: Iterable[Fact | None]) -> tuple[Fact, ...]:
    return tuple(each for each in facts if each is not None)


def fact_of(record: Record, name: str, field: str) -> Fact | None:
    value = getattr(record, field, None)
    return None if value is None else fact(name, value)


def mass_fact(part: Part[Record]) -> Fact | None:
    written = getattr(part.record, "mass", None)
    return fact("Mass of one", written.text) if written is not None and not written.is_unknown else None


def measured_facts(record: Measured, instruments: Mapping[str, str]) -> Iterator[Fact]:
    """Who read it, when and with what."""
    if record.measured_on is not None:
        yield fact("Read on", record.measured_on.isoformat())
    if record.measured_with is not None:
        name = instruments.get(record.measured_with, "")
        yield fact("Read with", f"{record.measured_with}, {name}" if name else record.measured_with)
    if record.measured_by is not None:
        yield Fact("Read by", (record.measured_by,))
    if record.note is not None:
        yield Fact("Note", (record.note,))


def instrument_names(instruments: Mapping[str, object]) -> Mapping[str, str]:
    return {id_: getattr(one, "name", None) or "" for id_, one in instruments.items()}
