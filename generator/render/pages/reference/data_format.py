"""What may stand in a club's files, made from the same models that read them."""

from collections.abc import Iterable
from dataclasses import dataclass

from pydantic import BaseModel

from generator.model.club import Club, Instrument
from generator.model.kinds import MODELS
from generator.model.wear_row import WearRow
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.reference.cells import SYMBOL_FREE
from generator.render.say.said import capital
from generator.render.schema.club import schema_file
from generator.render.schema.field_facts import FieldFacts, field_facts
from generator.render.schema.quantities import EXAMPLES

_COLUMNS = (
    Column("Key", "head"),
    Column("Needed", "short"),
    Column("What it means", "long"),
    Column("What may stand there", "long"),
    Column("Left out"),
    Column("Symbol", "short"),
)


@dataclass(frozen=True, slots=True)
class FileKind:
    """One file of a club, with the tables of its keys and the address of its schema."""

    id: str
    file: str
    what: str
    tables: tuple[Table, ...]
    schema: str


def data_format_page(_book: Book) -> Page:
    return Page(
        path="data-format/",
        title="Data format",
        description="Every file and every key of a club's folder, and how lengths are written.",
        template="handbook/data_format.html",
        context={"kinds": tuple(_kinds()), "lengths": tuple(EXAMPLES["length"])},
        search=(
            "file format",
            "yaml",
            "schema",
            "keys",
            "fields",
            "how to write a length",
            "own data",
            "club folder",
        ),
        kind="data-format",
        in_nav=True,
    )


def _kinds() -> Iterable[FileKind]:
    yield _kind(Club, "", (("", Club), ("instruments", Instrument)))
    for kind in MODELS.values():
        yield _kind(kind, f"One record a {kind.kind_word}", (("", kind),))
    yield _kind(WearRow, "A table with commas, one line a reading", (("", WearRow),))


def _kind(
    kind: type[Club] | type[WearRow] | type[BaseModel],
    what: str,
    models: Iterable[tuple[str, type[BaseModel]]],
) -> FileKind:
    file: str = getattr(kind, "file", "")
    stem = file.rsplit(".", 1)[0].replace("_", "-")
    about = " ".join((kind.__doc__ or "").split()).removeprefix(f"{file}: ")
    told = f"{what}. {about}" if what else capital(about)
    tables = tuple(_table(stem, file, block, model) for block, model in models)
    return FileKind(stem, file, told, tables, f"data/v1/schema/club/{schema_file(file)}")


def _table(stem: str, file: str, block: str, model: type[BaseModel]) -> Table:
    id_ = f"format-{stem}-{block}" if block else f"format-{stem}"
    caption = f"Keys of {file}, {block}" if block else f"Keys of {file}"
    rows = tuple(_row(stem, block, fact) for fact in field_facts(model))
    return Table(id_, caption, _COLUMNS, rows)


def _row(stem: str, block: str, fact: FieldFacts) -> Row:
    start = f"{stem}-{block}" if block else stem
    cells = (
        Cell(fact.name),
        Cell("required" if fact.required else "optional"),
        Cell(fact.description),
        Cell(fact.holds),
        Cell(fact.default or ("refused" if fact.required else "nothing said")),
        Cell(fact.symbol or SYMBOL_FREE),
    )
    return Row(cells, id=f"{start}-{fact.name}")
