"""Tables of pages that wait for their new face."""

from generator.render.base.table import Table


def with_downloads(table: Table, under: str = "", what: str = "") -> Table:  # noqa: ARG001
    return table


def with_fits(table: Table, under: str = "", what: str = "") -> Table:  # noqa: ARG001
    return table
