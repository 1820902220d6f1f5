"""The end of `handbook check`: what is most worth measuring next.

Goes in: readings with the pairs they would help.  Comes out: plain text.
"""

from collections.abc import Iterator, Sequence

from generator.compute.worth_measuring import Worth
from generator.model.quantity import NM_PER_MM

MOST_SHOWN = 5


def worth_text(worth: Sequence[Worth]) -> str:
    """The first few readings, most helpful first."""
    return "".join(f"{line}\n" for line in _lines(worth))


def _lines(worth: Sequence[Worth]) -> Iterator[str]:
    if not worth:
        yield "every pair is decided by what is known"
        return
    yield "most worth measuring next:"
    for each in worth[:MOST_SHOWN]:
        close = f" to within ±{each.to_within / NM_PER_MM:.2f} mm" if each.to_within else ""
        pairs = "1 open pair" if each.pairs == 1 else f"{each.pairs} open pairs"
        yield f"  {each.reading.kind} {each.reading.id}: {each.reading.field}{close} ({pairs})"
