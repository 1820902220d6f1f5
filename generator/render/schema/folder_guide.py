"""FILES.md of a starter folder: what each file is for, and the columns of the wear log, which can hold no comments."""

from collections.abc import Iterator

from generator.model.club import Club
from generator.model.kinds import MODELS
from generator.model.wear_row import WearRow
from generator.render.say.said import small
from generator.render.schema.field_facts import field_facts

# the length between and over 21 rollers of a chain a little longer than new
EXAMPLE = "2027-02-14,first-chain,410,20,308.10 mm,328.42 mm,a,no,reading"


def files_text() -> str:
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield "# What is in this folder"
    yield ""
    yield "Lines behind a # are not read. A file you do not need may stay as it is."
    yield ""
    yield f"- `{Club.file}`: {_sentence(Club.__doc__, Club.file)}"
    for kind in MODELS.values():
        yield f"- `{kind.file}`: {_sentence(kind.__doc__, kind.file)}"
    yield f"- `{WearRow.file}`: how chains wear, a line a reading; see below."
    yield "- `schema/`: tells your editor what may stand where. `PUBLISHING.md`: how to show the handbook to others."
    yield ""
    yield f"## The columns of `{WearRow.file}`"
    yield ""
    yield "The first line names the columns and stays. Below it one line a reading, a comma between the cells, no cell"
    yield "empty. Three places of the loop are three lines. A line looks like this:"
    yield ""
    yield f"    {','.join(WearRow.model_fields)}"
    yield f"    {EXAMPLE}"
    yield ""
    for fact in field_facts(WearRow):
        yield f"- `{fact.name}`: {fact.holds}. {fact.description}."


def _sentence(doc: str | None, file: str) -> str:
    """The first line of the model, which says what one record is."""
    said = " ".join((doc or "").split()).removeprefix(f"{file}: ")
    return small(said)
