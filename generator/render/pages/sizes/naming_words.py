"""What a size code says about itself, in sentences."""

from dataclasses import dataclass

from generator.compute.naming import RULE_SOURCE, NamedSize, Naming, naming_of
from generator.model.dataset import Dataset, SizeCodeEntry
from generator.render.base.lengths import ShownLength, shown_length
from generator.render.base.table import Cell
from generator.render.pages.reference.cells import decimals_of, source_cell
from generator.render.say.said import Said


@dataclass(frozen=True, slots=True)
class NamingLines:
    """`follows` is the verdict in one sentence; `source` is where the rule was read."""

    pitch: Said
    width: Said
    follows: str
    source: Cell


def naming_lines(dataset: Dataset, size: SizeCodeEntry) -> NamingLines | None:
    """None where the code is not of three digits: the rule does not speak of it."""
    naming = naming_of(size)
    if naming is None:
        return None
    return NamingLines(
        pitch=_pitch(naming.pitch),
        width=_width(naming.width),
        follows=_follows(size.code, naming),
        source=source_cell(dataset.shelf, RULE_SOURCE),
    )


def _pitch(named: NamedSize) -> Said:
    published = named.published or 0
    start: Said = (
        f"The first digit counts the pitch in eighths of an inch: {named.digits}/8 in is ",
        _mm(named.by_name),
    )
    if named.agrees:
        return (*start, ", and so it is.")
    return (*start, ". The pitch is ", _mm(published), ": the rule fails here.")


def _width(named: NamedSize) -> Said:
    start: Said = (
        f"The last two digits count the inner width in eightieths of an inch: {int(named.digits)}/80 in is ",
        _mm(named.by_name),
    )
    if named.published is None:
        return (*start, ". The width is not known.")
    under = named.by_name - named.published
    if not named.agrees:
        return (*start, ". The width is ", _mm(named.published), ": the rule fails here.")
    if under == 0:
        return (*start, ", and so it is.")
    return (
        *start,
        ". The least width printed is ",
        _mm(named.published),
        ", which lies ",
        _mm(under),
        " under it, as least widths do.",
    )


def _follows(code: str, naming: Naming) -> str:
    if naming.follows:
        return f"{code} follows the naming rule."
    if naming.pitch.agrees:
        return f"{code} breaks the naming rule: its last two digits do not give the width."
    return f"{code} breaks the naming rule: it is a name, and no sum gives its sizes."


def _mm(nm: int) -> ShownLength:
    return shown_length(nm, decimals_of(nm))
