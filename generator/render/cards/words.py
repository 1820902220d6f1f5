"""Verdicts, cautions, lengths and typed names as they stand on a card."""

from collections.abc import Iterable, Iterator

from generator.compute.fit.result import PairFit, Word, word_of
from generator.model.dataset import Dataset, Part
from generator.model.quantity import NM_PER_MM
from generator.model.record import Record
from generator.model.shipped import NO_GO, RUNGS
from generator.render.base.lengths import shown_length
from generator.render.cards.card import (
    Caution,
    Group,
    Labels,
    Listing,
    Origin,
    Plate,
    Run,
    Says,
    Text,
    plain,
    strong,
    tag,
)
from generator.render.say.cautions import shown_caution
from generator.render.say.rungs import BY, not_tested
from generator.render.say.said import capital

NO_BREAK = "\N{NO-BREAK SPACE}"
# characters of a typed name that stand in a line with others; longer ones get blocks of their own
_INLINE = 48
_PIECE = 90
_PARAGRAPH = 120  # letters of texts that follow each other in one block
_LINE = 54  # letters in a line of labels, and how many the hole and the edge of one take up
_AROUND = 4


def plate(best: int | None, worst: int | None) -> Plate:
    """A verdict that is not settled has the outline of the worst it could be, in dashes."""
    word: Word = word_of(best, worst)
    if worst is None:
        return Plate("cannot-judge", "cannot-judge", "look at it")
    if word == "measure-first":
        return Plate(RUNGS[worst], "measure-first", "not tested")
    return Plate(word, word, "NO-GO" if worst == NO_GO else word)


def fit_plate(fit: PairFit, rung: int | None) -> Plate:
    """What is proper by numbers alone stands as get-home."""
    return (
        plate(rung, rung)
        if fit.word == "proper" and fit.strength != "dry-fitted"
        else plate(fit.best, fit.worst)
    )


def standing(fit: PairFit) -> str:
    """What the plate leaves to be said."""
    if fit.worst is None:
        return "Cannot judge: do not count on it."
    if fit.word == "measure-first":
        return f"{capital(not_tested(fit.worst))}."
    if fit.word == "proper" and fit.strength != "dry-fitted":
        return f"Proper {BY[fit.strength]}: get-home until dry-fitted."
    return "Dry-fitted." if fit.strength == "dry-fitted" else ""


def millimetres(nm: float, decimals: int = 2) -> str:
    return shown_length(round(nm), decimals).mm.replace(" ", NO_BREAK)


def whole_mm(nm: int) -> str:
    """As a tape is read."""
    return f"{round(nm / NM_PER_MM)}{NO_BREAK}mm"


def pieces(text: str, most: int) -> Iterator[str]:
    """A few letters at a time."""
    for at in range(0, len(text), most):
        yield text[at : at + most]


def typed(part: Part[Record], field: str = "name") -> Text:
    """What the club typed in a short field; nothing where it is long or left out."""
    text = getattr(part.record, field, None)
    if not text or len(text) > _INLINE:
        return ()
    return (Run(" ".join(text.split()), origin=Origin(part.kind, part.id, field)),)


def typed_long(part: Part[Record], field: str = "name") -> Iterator[Says]:
    """What did not go into a line, in pieces that may stand on different sides."""
    text = getattr(part.record, field, None)
    if text and len(text) > _INLINE:
        yield from in_pieces(text, Origin(part.kind, part.id, field))


def in_pieces(text: str, origin: Origin) -> Iterator[Says]:
    line = ""
    for word in (piece for long in text.split() for piece in pieces(long, _PIECE)):
        if line and len(line) + len(word) >= _PIECE:
            yield Says((Run(line, origin=origin),))
            line = ""
        line = f"{line} {word}".strip()
    if line:
        yield Says((Run(line, origin=origin),))


def labels(head: Plate, says: Text, ids: list[str]) -> Iterator[Listing]:
    """All of a list, a line of labels a block; nothing of an empty one."""
    if ids:
        yield Listing(Group(head, says), tuple(Labels(tuple(row)) for row in _rows(ids)))


def _rows(ids: list[str]) -> Iterator[list[str]]:
    """As many labels as stand in one line, at least one."""
    row: list[str] = []
    for id_ in ids:
        if row and sum(len(each) + _AROUND for each in (*row, id_)) > _LINE:
            yield row
            row = []
        row.append(id_)
    if row:
        yield row


def tag_lines(lead: str, ids: Iterable[str]) -> Iterator[Text]:
    """Labels after a word, a few a text, with a full stop at the end."""
    rows = list(_rows(list(dict.fromkeys(ids))))
    for n, row in enumerate(rows):
        tags = spaced(*((tag(id_),) for id_ in row))
        stop = (Run("."),) if n == len(rows) - 1 else ()
        if n == 0 and len(lead) + letters(tags) > _LINE:
            yield plain(lead)
        elif n == 0:
            tags = spaced(plain(lead), tags)
        yield (*tags, *stop)


def paragraphs(texts: Iterable[Text], most: int = _PARAGRAPH) -> Iterator[Text]:
    """Texts that follow each other, as few blocks as leave each well below a side."""
    whole: Text = ()
    for text in texts:
        if whole and letters(whole) + letters(text) > most:
            yield whole
            whole = ()
        whole = spaced(whole, text)
    if whole:
        yield whole


def tags_within(text: Text, most: int) -> bool:
    """Has every label in it at most so many letters?"""
    return all(run.style != "tag" or len(run.text) <= most for run in text)


def letters(text: Text) -> int:
    """About as many as a text is long when it is set, labels with their edges."""
    return sum(len(run.text) + (_AROUND if run.style == "tag" else 0) for run in text)


def cautions(dataset: Dataset, *wanted: str, why: bool = True) -> Iterator[Caution]:
    """What to do in large type, then why."""
    known = dataset.shelf.cautions
    for id_ in wanted:
        if id_ in known:
            shown = shown_caution(id_, known[id_])
            does = strong(f"{shown.title}. " if why else f"{shown.title}.")
            yield Caution(shown.signal, (does, *(plain(shown.consequence) if why else ())))


def spaced(*texts: Text) -> Text:
    """One after the other with a blank between; what is empty leaves none."""
    runs: list[Run] = []
    for text in texts:
        if text:
            runs.extend((*((Run(" "),) if runs else ()), *text))
    return tuple(runs)
