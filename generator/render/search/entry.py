"""One thing the search can find, and everything it can be found by."""

from dataclasses import dataclass

_LONGEST = 110


@dataclass(frozen=True, slots=True)
class Known:
    """A length somebody may type; `words` say which dimension it is."""

    words: str
    micrometres: int


@dataclass(frozen=True, slots=True)
class Entry:
    """A page, or a place on one; `favour` is 100 for a usual one, more for what is wanted more often.

    `labels` name it alone, such as an id; `phrases` are other names for it, strongest first; `words` only help.
    """

    path: str
    title: str
    kind: str
    says: str
    labels: tuple[str, ...] = ()
    phrases: tuple[str, ...] = ()
    lengths: tuple[Known, ...] = ()
    favour: int = 100
    words: str = ""


def shortened(text: str) -> str:
    """The first sentence, and no more of it than fits two lines of a phone."""
    first = text.split(". ")[0].rstrip(".")
    if len(first) <= _LONGEST:
        return first
    return first[:_LONGEST].rsplit(" ", 1)[0].rstrip(",;:") + " …"
