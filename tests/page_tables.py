"""The tables of a printed page, read back out of its HTML."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass
from html.parser import HTMLParser

from generator.render.base.table import Table


@dataclass
class ReadCell:
    """Main text, small print, and the parts of a verdict."""

    text: str = ""
    note: str = ""
    span: str = ""
    is_verdict: bool = False


@dataclass
class ReadTable:
    heads: list[str] = field(default_factory=list)
    rows: list[list[ReadCell]] = field(default_factory=list)


class PageTables(HTMLParser):
    """`found` is filled as the page is fed; inch texts are left out, as the switch does."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: dict[str, ReadTable] = {}
        self.table: ReadTable | None = None
        self.cell: ReadCell | None = None
        self.in_body = False
        self.classes: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "div" and "wide" in given.get("class", "").split():
            self.table = self.found[given["id"]] = ReadTable()
        elif tag == "tbody":
            self.in_body = True
        elif tag == "tr" and self.in_body and self.table is not None:
            self.table.rows.append([])
        elif tag in ("th", "td") and self.table is not None:
            self.cell = ReadCell()
            self.classes = []
        elif tag in ("span", "b", "i"):
            self.classes.append(given.get("class", tag))
            if self.cell is not None:
                self.cell.is_verdict |= given.get("class", "").startswith("plate mini")

    def handle_endtag(self, tag: str) -> None:
        if tag in ("span", "b", "i") and self.classes:
            self.classes.pop()
        elif tag in ("th", "td") and self.cell is not None and self.table is not None:
            if self.in_body:
                self.table.rows[-1].append(self.cell)
            else:
                self.table.heads.append(self.cell.text)
            self.cell = None
        elif tag == "tbody":
            self.in_body = False
        elif tag == "table":
            self.table = None

    def handle_data(self, data: str) -> None:
        inside = self.classes
        if self.cell is None or (inside[-1:] in (["i"], ["num"]) and "num" in inside):
            return
        if "note" in inside and self.cell.is_verdict and not self.cell.span:
            self.cell.span += data
        elif "note" in inside:
            self.cell.note += data
        else:
            self.cell.text += data.rstrip() if inside[-1:] == ["b"] else data


def tables_in(value: object) -> Iterator[Table]:
    """The tables in the context of a page, however deep they lie."""
    if isinstance(value, Table):
        yield value
    elif isinstance(value, Mapping):
        for inner in value.values():
            yield from tables_in(inner)
    elif isinstance(value, tuple | list):
        for inner in value:
            yield from tables_in(inner)
    elif is_dataclass(value):
        for each in fields(value):
            yield from tables_in(getattr(value, each.name))
