"""Every table can be taken away as a file with the same cells.

Goes in: a table.  Comes out: the same table with the addresses of its files.
"""

from dataclasses import replace

from generator.render.base.page import Download
from generator.render.base.table import Table


def with_downloads(table: Table, under: str = "", what: str = "this table") -> Table:
    """`under` names the larger table whose files hold these rows, where this one has none of its own."""
    name = under or table.id
    files = tuple(
        Download(f"{kind.upper()} of {what}", f"data/v1/tables/{name}.{kind}") for kind in ("csv", "json")
    )
    return replace(table, downloads=files)


def with_fits(table: Table, under: str = "", what: str = "this table") -> Table:
    """Where there are many pairs their numbers are written as JSON once, in the file of all fits."""
    csv, _ = with_downloads(table, under, what).downloads
    return replace(table, downloads=(csv, Download("JSON of all pairs", "data/v1/fits.json")))
