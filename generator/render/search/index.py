"""The index of the search as a script that assigns one constant: it works from a folder on disk, without a fetch."""

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from generator.model.dataset import Dataset
from generator.render.base.page import Asset, Page
from generator.render.pages.book import Book
from generator.render.search.entry import Entry
from generator.render.search.pairs import pair_grid
from generator.render.search.parts import part_entries, size_entries
from generator.render.search.places import caution_entries, code_entries
from generator.render.search.words import list_entries, word_entries

FILE = "assets/search-index.js"
# their pairs are found by both labels; their own words would only crowd the parts out
_LEFT_OUT = ("pair",)
# small words that say nothing about what is looked for
STOP_WORDS = (
    "a an and any are at be by can do does fit fits for from go goes have how i in into is it my of on one or our "
    "that the there this to what when where which with your x"
)
LONGEST_NAME = 40
_PAGE_FAVOUR = 95
# how to read a thing comes before the word for it; the parts themselves before the list of what goes on a chain
_FAVOURS = {"recipe": 104, "chain-pairs": 75, "clip-lost": 170, "ride": 110}
_KIND_WORDS = {"chain-pairs": "all pairs", "recipe": "how to measure"}


def search_index(book: Book, pages: Iterable[Page]) -> Asset:
    """The same data give the same bytes."""
    entries = tuple(search_entries(book.dataset, pages))
    grid = pair_grid(book)
    kinds = sorted({entry.kind for entry in entries})
    fields = sorted({known.words for entry in entries for known in entry.lengths})
    content = {
        "kinds": kinds,
        "fields": fields,
        "docs": [_row(entry, kinds, fields) for entry in entries],
        "links": grid.links,
        "says": grid.says,
        "verdicts": grid.words,
        "pairs": grid.rows,
        "stop": STOP_WORDS,
    }
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return Asset(FILE, f"window.handbookIndex={_in_script(text)};\n")


def search_entries(dataset: Dataset, pages: Iterable[Page]) -> Iterator[Entry]:
    """In the order of their addresses' kinds: parts, sizes, lists, words, cautions, codes, then every other page."""
    by_path = {page.path: page for page in pages if page.kind not in _LEFT_OUT}
    known: set[str] = set()
    for entries in (part_entries, size_entries, list_entries, word_entries, caution_entries, code_entries):
        for entry in entries(dataset, by_path):
            known.add(entry.path)
            yield entry
    for path, page in by_path.items():
        if path not in known:
            yield _page_entry(page)


def _page_entry(page: Page) -> Entry:
    """What people may type is a name where it is short, and words that help where it is long."""
    kind = _KIND_WORDS.get(page.kind, "page")
    names = tuple(text for text in page.search if len(text) <= LONGEST_NAME)
    rest = " ".join(text for text in page.search if len(text) > LONGEST_NAME)
    own = page.path.rstrip("/").rsplit("/", 1)[-1].replace("-", " ")
    phrases = tuple(dict.fromkeys((own, *names))) if own else names
    favour = _FAVOURS.get(page.kind, _PAGE_FAVOUR)
    return Entry(page.path, page.title, kind, page.description, (), phrases, (), favour, rest)


def _row(entry: Entry, kinds: Sequence[str], fields: Sequence[str]) -> list[Any]:
    """Path, title, kind, description, favour, labels, phrases, field and micrometres in turn, words."""
    lengths = [number for known in entry.lengths for number in (fields.index(known.words), known.micrometres)]
    kind = kinds.index(entry.kind)
    row = [entry.path, entry.title, kind, entry.says, entry.favour, entry.labels, entry.phrases, lengths]
    return [*row, entry.words] if entry.words else row


def _in_script(text: str) -> str:
    """Two line ends that JSON allows and older scripts do not."""
    return text.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
