"""What a page holds, for the list beside it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from html import unescape

# the head of a section stands right after its opening, or in the summary of what folds away
_SECTION = re.compile(
    r'<(?:section|details)\b[^>]*?\bid="(?P<around>[^"]+)"[^>]*>\s*(?:<summary[^>]*>\s*)?<h2[^>]*>(?P<head>.*?)</h2>'
    # an answer that folds has its anchor inside, since a link to it opens it
    r'|<details class="sec sec--answer"[^>]*><summary><h2>(?P<answer>.*?)</h2></summary><div[^>]*?\bid="(?P<inside>[^"]+)"'
    r'|<h2[^>]*?\bid="(?P<own>[^"]+)"[^>]*>(?P<bare>.*?)</h2>',
    re.DOTALL,
)
# what a head says more than its list needs, and every tag
_TAG = re.compile(r'<span class="of-head">[^<]*</span>|<[^>]+>')
FEWEST = 3


@dataclass(frozen=True, slots=True)
class Section:
    """An anchor of the page and its head."""

    id: str
    title: str


def sections_of(html: str) -> tuple[Section, ...]:
    """None where there are too few to need a list; a head that only voices read is left out."""
    found = tuple(_sections(html))
    return found if len(found) >= FEWEST else ()


def _sections(html: str) -> Iterator[Section]:
    for match in _SECTION.finditer(html):
        if 'class="unseen"' in match[0].split("<h2", 1)[1].split(">", 1)[0]:
            continue
        text = unescape(_TAG.sub("", match["head"] or match["answer"] or match["bare"]))
        if len(text) > 1:  # letters stand in a row of their own above
            yield Section(match["around"] or match["inside"] or match["own"], " ".join(text.split()))
