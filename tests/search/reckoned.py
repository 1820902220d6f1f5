"""The ranking of site_overrides/assets/search-engine.js a second time, plainly, so that no browser is needed."""

import itertools
import json
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import log
from typing import Any, NamedTuple

from tests.search.typed import TypedLength, apart, is_word, one_off, stem, typed, typed_label

LABEL, TITLE, PHRASE, KIND, WORDS, SAYS, FIELD, LENGTH = 10, 6, 6, 6, 3.5, 3, 5, 6
WHOLE_LABEL, WHOLE_TITLE, WHOLE_PHRASE = 2, 1.6, 1.5
LENGTH_RARITY = 4
MOST_PAIRS = 3


class Name(NamedTuple):
    """All stems of a name, and what it adds when they were all typed."""

    words: tuple[str, ...]
    worth: float


class Place(NamedTuple):
    """The strongest place of a typed word in one entry."""

    strength: float
    word: str
    how: float


class Near(NamedTuple):
    """The best of an entry's lengths for one typed length."""

    worth: float
    near: float
    named: frozenset[str]


@dataclass
class Found:
    """What speaks for one entry so far."""

    score: float = 0.0
    cover: float = 0.0
    hit: set[str] = field(default_factory=set)
    named: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class Doc:
    """One row of the index."""

    path: str
    title: str
    kind: str
    says: str
    favour: float
    labels: Sequence[str]
    phrases: Sequence[str]
    lengths: Sequence[tuple[int, int]]  # field, micrometres
    words: str

    def texts(self) -> Iterator[tuple[str, float, float]]:
        """Each text with its weight, and what it adds as a whole."""
        yield from ((label, LABEL, WHOLE_LABEL) for label in self.labels)
        yield self.title, TITLE, WHOLE_TITLE
        for place, phrase in enumerate(self.phrases):
            yield phrase, max(PHRASE - place / 6, 3), WHOLE_PHRASE - place / 30
        yield from ((self.kind, KIND, 0), (self.says, SAYS, 0), (self.words, WORDS, 0))


def index_of(script: str) -> dict[str, Any]:
    """The constant that the script assigns."""
    found: dict[str, Any] = json.loads(script.removeprefix("window.handbookIndex=").rstrip(";\n"))
    return found


def _doc(row: Sequence[Any], kinds: Sequence[str]) -> Doc:
    path, title, kind, says, favour, labels, phrases, flat, *words = row
    pairs = tuple(zip(flat[::2], flat[1::2], strict=True))
    return Doc(path, title, kinds[kind], says, favour, labels, phrases, pairs, "".join(words))


class Search:
    """Reads an index once and ranks it for each thing typed."""

    def __init__(self, index: Mapping[str, Any]) -> None:
        self.stop = frozenset(index["stop"].split())
        self.docs = [_doc(row, index["kinds"]) for row in index["docs"]]
        self.fields = [frozenset(map(stem, typed(words).words)) for words in index["fields"]]
        self.links, self.rows = index["links"], index["pairs"]
        self.places: dict[str, dict[int, float]] = defaultdict(dict)
        self.names = [tuple(self._read(number, doc)) for number, doc in enumerate(self.docs)]
        labels = (label for doc in self.docs for label in doc.labels)
        self.posing = [label for label in labels if re.fullmatch(r"[\w-]+", label) and typed(label).lengths]
        self.forms: dict[str, list[str]] = defaultdict(list)
        for word in self.places:
            self.forms[stem(word)].append(word)

    def _read(self, number: int, doc: Doc) -> Iterator[Name]:
        for text, weight, worth in doc.texts():
            read = typed_label(text) if worth == WHOLE_LABEL else typed(text)
            for word in (*read.words, *read.joined):
                self.places[word][number] = max(weight, self.places[word].get(number, 0))
            if worth > 0 and read.words and len(text) < 40:
                meant = [word for word in read.words if word not in self.stop] or read.words
                yield Name(tuple(dict.fromkeys(map(stem, meant))), worth)

    def find(self, text: str, most: int = 12) -> list[str]:
        asked = typed(self._guarded(text[:200]))
        words = self._wanted(asked.words, bool(asked.lengths))
        found: dict[int, Found] = defaultdict(Found)
        total = sum(self._add_length(found, length, words) for length in asked.lengths)
        known = []
        for number in range(len(words)):
            rarity, meant = self._add_word(found, words, number)
            total += rarity
            known.append(meant)
        count = len(words) + len(asked.lengths)
        wholes = {doc: self._whole_of(doc, entry, words, count) for doc, entry in found.items()}
        scores = {doc: self._score(doc, entry, total, wholes[doc]) for doc, entry in found.items()}
        least = max(scores.values(), default=0) / 30
        last = {doc: self.docs[doc].kind == "problem code" and wholes[doc] < 1 for doc in scores}
        good = (doc for doc in scores if scores[doc] > least)
        ranked = sorted(good, key=lambda doc: (last[doc], -scores[doc], doc))
        pairs = self._pairs(known)
        return [*pairs, *(self.docs[doc].path for doc in ranked[: most - len(pairs)])]

    def _guarded(self, text: str) -> str:
        """A label that is typed stays a label: `tin 14 inch`."""
        for label in self.posing:
            pattern = rf"\b{label.replace('-', '[ -]?')}\b"
            text = re.sub(pattern, apart(label), text, count=1, flags=re.ASCII | re.IGNORECASE)
        return text

    def _wanted(self, words: Sequence[str], lengths: bool) -> list[str]:
        kept = [word for number, word in enumerate(words) if self._says_something(words, number)]
        if not kept and not lengths:
            kept = list(words)
        return [part for word in kept for part in self._taken_apart(word)][:12]

    def _says_something(self, words: Sequence[str], number: int) -> bool:
        word = words[number]
        if word not in self.stop:
            return True
        if len(word) > 1:
            return False
        after_digits = number > 0 and not is_word(words[number - 1])
        return after_digits or bool(number + 1 < len(words) and self._joined(word, words[number + 1]))

    def _taken_apart(self, word: str) -> tuple[str, ...]:
        if is_word(word) and len(word) >= 6 and word not in self.places and stem(word) not in self.forms:
            for cut in range(3, len(word) - 2):
                if stem(word[:cut]) in self.forms and stem(word[cut:]) in self.forms:
                    return word[:cut], word[cut:]
        return (word,)

    def _joined(self, a: str, b: str) -> list[str]:
        return self.forms.get(stem(a + b), []) if is_word(a) and is_word(b) else []

    def _readings(self, words: Sequence[str], number: int) -> dict[str, float]:
        word = words[number]
        sure: dict[str, float] = {}

        def may(others: Iterable[str], how: float) -> None:
            for other in others:
                sure[other] = max(how, sure.get(other, 0))

        may([word] if word in self.places else [], 1)
        may(self.forms.get(stem(word), []), 0.9)
        known = bool(sure)
        if len(word) > 1 and (is_word(word) or number == len(words) - 1):
            for other in self.places:
                if other.startswith(word) and is_word(other) == is_word(word):
                    may([other], 0.6 * len(word) / len(other) + 0.1)
        if not known and is_word(word) and len(word) > 2:
            may([other for other in self.places if other not in sure and _mistyped(word, other)], 0.6)
        for a, b in ((number - 1, number), (number, number + 1)):
            if a >= 0 and b < len(words):
                may(self._joined(words[a], words[b]), 0.95)
        return sure

    def _places(self, words: Sequence[str], number: int) -> dict[int, Place]:
        best: dict[int, Place] = {}
        for word, how in self._readings(words, number).items():
            for doc, weight in self.places[word].items():
                if doc not in best or how * weight > best[doc].strength:
                    best[doc] = Place(how * weight, word, how)
        return best

    def _add_word(
        self, found: dict[int, Found], words: Sequence[str], number: int
    ) -> tuple[float, frozenset[str]]:
        own = stem(words[number])
        best = self._places(words, number)
        sure = [place for place in best.values() if place.how >= 0.6]
        names_field = any(own in names for names in self.fields)
        rarity = self._rarity(len(sure) or len(best)) if best else 2.5 * names_field
        for doc in best:
            _ = found[doc]
        for doc, entry in found.items():
            place, names = best.get(doc), own in entry.named
            if place or names:
                strength, how = (place.strength, place.how) if place else (0.0, 0.0)
                entry.score += rarity * (max(strength, FIELD) if names else strength)
                entry.cover += rarity * (1 if names else min(1, how + 0.2))
            if place:
                entry.hit |= {stem(place.word), own}
        return rarity, frozenset({words[number], *(place.word for place in sure)})

    def _rarity(self, count: int) -> float:
        return log(1 + len(self.docs) / max(count, 1))

    def _add_length(self, found: dict[int, Found], length: TypedLength, words: Sequence[str]) -> float:
        stems = [stem(word) for word in words]
        for number, doc in enumerate(self.docs):
            best = self._near(doc, length, stems)
            if best:
                found[number].score += LENGTH_RARITY * LENGTH * best.worth
                found[number].cover += LENGTH_RARITY * min(1, best.near + 0.3)
                found[number].named |= best.named
        return LENGTH_RARITY

    def _near(self, doc: Doc, length: TypedLength, stems: Sequence[str]) -> Near | None:
        best: Near | None = None
        for place, micrometres in doc.lengths:
            near = nearness(length, micrometres)
            named = [word for word in stems if word in self.fields[place]]
            worth = near * (1 + (len(named) / len(stems) if stems else 0))
            if length.fraction and doc.kind == "size code":
                worth *= 1.25
            if near > 0 and (best is None or worth > best.worth):
                best = Near(worth, near, frozenset(named))
        return best

    def _whole_of(self, doc: int, entry: Found, words: Sequence[str], count: int) -> float:
        return max((0, *(_whole(name, entry.hit, words, count) for name in self.names[doc])))

    def _score(self, doc: int, entry: Found, total: float, whole: float) -> float:
        cover = min(1, entry.cover / total) if total else 0
        return entry.score * cover * cover * cover * (1 + whole) * self.docs[doc].favour / 100

    def _pairs(self, known: Sequence[frozenset[str]]) -> list[str]:
        found = []
        for on in sorted(self.rows):
            used = _taken(on, known, frozenset())
            for number, link in enumerate(self.links if used else ()):
                both = _taken(link, known, used or frozenset())
                if both:
                    found.append((-len(both), self._path(on, number)))
        if not found:
            return self._begun_pairs(known)
        return [path for _, path in sorted(found, key=lambda pair: pair[0])[:MOST_PAIRS]]

    def _begun_pairs(self, known: Sequence[frozenset[str]]) -> list[str]:
        """The label of a link, and some of a chain's."""
        links = [_taken(link, known, frozenset()) for link in self.links]
        found = [
            self._path(chain, number)
            for chain in sorted(self.rows)
            if self.rows[chain][0] == chain
            for number, used in enumerate(links)
            if used and _partly(chain, known, used)
        ]
        return found if len(found) <= MOST_PAIRS else []

    def _path(self, on: str, number: int) -> str:
        chain, characters, panels = self.rows[on]
        link = self.links[number]
        if int(characters[number], 36) % 2 == 0:
            return f"pairs/{chain}/#{link}"
        return f"pairs/{chain}/{link}/" + (f"#{panels[link]}" if link in panels else "")


def nearness(length: TypedLength, micrometres: int) -> float:
    off = abs(micrometres / 1000 - length.mm)
    if off <= length.near:
        return 1 - 0.3 * off / length.near
    return 0.4 * (1 - (off - length.near) / 0.1) if off < length.near + 0.1 else 0


def _mistyped(word: str, other: str) -> bool:
    short = stem(word)
    return is_word(other) and (one_off(word, other) or (len(short) > 3 and one_off(short, stem(other))))


def _whole(name: Name, hit: set[str], words: Sequence[str], count: int) -> float:
    if not all(word in hit for word in name.words):
        return 0
    stems = tuple(stem(word) for word in words)
    starts = range(len(stems))
    in_order = any(stems[start : start + len(name.words)] == name.words for start in starts)
    share = min(1, len(name.words) / count)
    return (name.worth + (0.5 if in_order else 0)) * share * share


def _partly(label: str, known: Sequence[frozenset[str]], used: frozenset[int]) -> bool:
    """Whether some words of the label are all that is typed beside what is used already."""
    now = used
    for word in typed_label(label).words:
        free = (number for number in range(len(known)) if number not in now and word in known[number])
        now = now | frozenset(itertools.islice(free, 1))
    return len(now) == len(known) and len(now) > len(used)


def _taken(label: str, known: Sequence[frozenset[str]], used: frozenset[int]) -> frozenset[int] | None:
    """The typed words that make up a label, none of them used twice."""
    for word in typed_label(label).words:
        free = (number for number in range(len(known)) if number not in used and word in known[number])
        number = next(free, None)
        if number is None:
            return None
        used = used | {number}
    return used
