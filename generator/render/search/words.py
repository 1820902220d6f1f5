"""Words of the trade: each one an entry of its own, and other names for the lists of parts."""

from collections.abc import Iterator, Mapping

from generator.model.dataset import Dataset
from generator.model.shipped import Term
from generator.render.base.page import Page
from generator.render.base.routes import FOLDERS
from generator.render.search.entry import Entry, shortened

GLOSSARY = "glossary/"
_WORD_FAVOUR = 85  # the parts themselves come before the word for them
_LIST_FAVOUR = 115

# the words of the glossary that people use for a whole list; a test holds them against the glossary
LIST_WORDS: Mapping[str, tuple[str, ...]] = {
    "chain": ("roller-chain",),
    "link": ("connecting-link", "clip-link"),
    "clip": ("clip",),
    "seal": ("seal",),
    "plate": ("side-plate",),
    "strip": ("spare-strip",),
    "tool": ("breaker", "side-plate-press", "riveter"),
    "size": ("size-code",),
}


def word_entries(dataset: Dataset, pages: Mapping[str, Page]) -> Iterator[Entry]:
    """One for each word; it leads to its place on the page of words."""
    if GLOSSARY not in pages:
        return
    for id_, term in dataset.shelf.glossary.items():
        yield Entry(
            path=f"{GLOSSARY}#{id_}",
            title=term.title,
            kind="word",
            says=shortened(term.meaning),
            labels=(),
            phrases=other_words(term),
            favour=_WORD_FAVOUR,
        )


def list_entries(dataset: Dataset, pages: Mapping[str, Page]) -> Iterator[Entry]:
    """A word for a kind of part leads to the list of what the club has of it."""
    for kind, folder in FOLDERS.items():
        page = pages.get(f"{folder}/")
        if page:
            terms = [
                dataset.shelf.glossary[id_]
                for id_ in LIST_WORDS.get(kind, ())
                if id_ in dataset.shelf.glossary
            ]
            words = [word for term in terms for word in (term.title, *other_words(term))]
            phrases = tuple(dict.fromkeys((*words, *page.search)))
            yield Entry(page.path, page.title, "list", page.description, (), phrases, (), _LIST_FAVOUR)


def other_words(term: Term) -> tuple[str, ...]:
    own = term.title.casefold()
    return tuple(word for word in dict.fromkeys((*term.us, *term.uk, *term.also)) if word.casefold() != own)
