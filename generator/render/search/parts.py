"""Parts and size codes as the search knows them: label, name, readings."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from generator.model.dataset import Dataset, Part, SizeCodeEntry
from generator.model.quantity import NM_PER_INCH, Quantity
from generator.model.record import Record
from generator.render.base.page import Page
from generator.render.base.routes import FOLDERS, part_route
from generator.render.say.names import PART_WORDS, parts_of, recipe_of
from generator.render.search.entry import Entry, Known
from generator.render.search.words import other_words

_NM_PER_MICROMETRE = 1000
_NOT_LENGTHS = ("tensile", "mass")
_PARTS = tuple(kind for kind in FOLDERS if kind != "size")
_OWN_STANDARD, _OTHER_STANDARD = 102, 92
_MOST_USED = 30  # favour of the size code the club has most of
_SAID = re.compile(r"(\d+)/(\d+) in (pitch|wide)")


def part_entries(dataset: Dataset, pages: Mapping[str, Page]) -> Iterator[Entry]:
    """Only what has a page."""
    for kind in _PARTS:
        for part in parts_of(dataset, kind).values():
            page = pages.get(part_route(kind, part.id))
            if page:
                yield _part_entry(dataset, part, page)


def _part_entry(dataset: Dataset, part: Part[Record], page: Page) -> Entry:
    name = part.record.name
    return Entry(
        path=page.path,
        title=page.title,
        kind=PART_WORDS[part.kind],
        says=_label_and_place(part, page),
        labels=(part.id,),
        lengths=tuple(known_lengths(dataset, part.kind, part.dims)),
        words=_words(page.search, {part.id, name or "", PART_WORDS[part.kind]}),
    )


def _label_and_place(part: Part[Record], page: Page) -> str:
    """The label on the bag and where it is kept; where the page goes by its label, what people call it."""
    name, kept = part.record.name, getattr(part.record, "kept_in", None)
    if page.title == part.id:
        return name or page.description
    return ", ".join(text for text in (part.id, kept) if text)


def _words(texts: Iterable[str], named: set[str]) -> str:
    """Readings are found by their value, not as words."""
    return ", ".join(text for text in texts if text not in named and not text.endswith((" mm", " in")))


def size_entries(dataset: Dataset, pages: Mapping[str, Page]) -> Iterator[Entry]:
    """The club's own sizes come before sizes nobody there has."""
    uses = _uses(dataset)
    most = max(uses.values(), default=1)
    for code, size in dataset.shelf.sizes.items():
        page = pages.get(part_route("size", code))
        if page:
            yield _size_entry(dataset, size, page, _MOST_USED * uses[code] // most)


def _size_entry(dataset: Dataset, size: SizeCodeEntry, page: Page, used: int) -> Entry:
    record = size.record
    return Entry(
        path=page.path,
        title=page.title,
        kind=PART_WORDS["size"],
        says=record.title if record.title != page.title else page.description,
        labels=(size.code, *record.also_written),
        phrases=_said_of(dataset, "heavy-series") if record.series == "heavy" else (),
        lengths=(*said_lengths(record.title), *known_lengths(dataset, "size", size.dims)),
        favour=(_OWN_STANDARD if record.family == "motorcycle" else _OTHER_STANDARD) + used,
        words=_words((*page.search, *_said_of(dataset, "size-code")), {size.code, PART_WORDS["size"]}),
    )


def _said_of(dataset: Dataset, word: str) -> tuple[str, ...]:
    """What else people say for a word of the glossary."""
    term = dataset.shelf.glossary.get(word)
    return other_words(term) if term else ()


def said_lengths(title: str) -> Iterator[Known]:
    """`5/8 in pitch, 1/4 in wide`: what a size is called by, next to what was measured of it."""
    for over, under, words in _SAID.findall(title):
        yield Known(words, round(Fraction(int(over), int(under)) * NM_PER_INCH / _NM_PER_MICROMETRE))


def _uses(dataset: Dataset) -> Counter[str]:
    """How many of the club's parts have a size code."""
    codes = [
        *(part.record.size_code for part in dataset.chains.values()),
        *(part.record.size_code for part in dataset.links.values()),
        *(part.record.size_code for part in dataset.plates.values()),
        *(part.record.size_code for part in dataset.strips.values()),
    ]
    return Counter(codes)


def known_lengths(dataset: Dataset, kind: str, dims: Mapping[str, Quantity]) -> Iterator[Known]:
    for field, quantity in dims.items():
        if field not in _NOT_LENGTHS:
            yield Known(field_words(dataset, kind, field), round(quantity.nominal / _NM_PER_MICROMETRE))


def field_words(dataset: Dataset, kind: str, field: str) -> str:
    """The name of the field and of its recipe, with its symbol."""
    found = recipe_of(dataset, kind, field)
    words = [field.replace("_", " ")]
    if found:
        words += [found[1].title.lower(), (found[1].symbol or "").lower()]
    return " ".join(dict.fromkeys(" ".join(words).split()))
