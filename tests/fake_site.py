"""A small made-up handbook for tests of the frame: a table with every verdict, lengths, hostile text."""

from generator.render.base.lengths import shown_length
from generator.render.base.page import Asset, Download, Page, Site, SiteFacts
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import shown_verdict
from generator.render.drawings.clip_direction import clip_direction_drawing
from generator.render.drawings.counting import counting_drawing

HOSTILE = """<script>alert(1)</script> " onload="x" style="y" {{ 7 * 7 }} [a](javascript:b) *c* | &amp; ]]>"""

_VERDICTS = (
    ("tin-3-red", "proper", 0, 0),
    ("bag-2-blue-long-name", "get-home", 1, 1),
    ("drawer-left", "last-resort", 2, 2),
    ("shed-rivet", "no-go", 3, 3),
    ("van-spare-1", "measure-first", 0, 1),
    ("van-spare-2", "measure-first", 0, 3),
    ("from-the-swap-table", "cannot-judge", None, None),
)
FILES = (Download("CSV", "data/v1/fake.csv"), Download("JSON", "data/v1/fake.json"))
_COLUMNS = (
    Column("Connecting link", "head"),
    Column("Verdict", "verdict"),
    Column("Deciding check"),
    Column("Clearance", "number"),
    Column("Pin reach", "number"),
    Column("Side plate", "number"),
    Column("Measure next"),
)


def fits_table(rows: int = 28) -> Table:
    """Every verdict in turn; the clearances run from clash to gap."""
    return Table(
        "fits",
        "Connecting links on blue-520",
        _COLUMNS,
        tuple(_row(number) for number in range(rows)),
    )


def _row(number: int) -> Row:
    name, word, best, worst = _VERDICTS[number % len(_VERDICTS)]
    own = f"{name}-{number}" if number >= len(_VERDICTS) else name
    cells = (
        Cell(
            own,
            to="pairs/blue-520/tin-3-red/" if number else "chains/blue-520/",
            note="red bag in tin 3" if number % 3 == 0 else "",
        ),
        Cell(verdict=shown_verdict(word, best, worst)),
        Cell("clip goes on, seals in" if number % 2 else "squeeze at the seat"),
        Cell(length=shown_length(-1_230_000 + 131_000 * number)),
        Cell(length=shown_length(11_660_000 + 17_000 * number)),
        Cell("unknown") if number % 5 == 4 else Cell(length=shown_length(2_020_000)),
        Cell("over outer plates, to 0.05 mm" if word == "measure-first" else "nothing"),
    )
    return Row(cells, id=own)


def fake_site() -> Site:
    """Start, a table, a pair page and a page of hostile text."""
    tables = "handbook/tables.html"
    fits = {"lead": "All links of the club on one chain.", "tables": (fits_table(),)}
    pair = {"lead": "One link on one chain.", "tables": (fits_table(3),)}
    hostile = {"lead": HOSTILE, "tables": (_hostile_table(),)}
    return Site(
        facts=SiteFacts("Larch Hollow Trail Riders", "larch", "2027-03-01", "9f2c41d07ab3", invented=True),
        pages=(
            Page("", "Start", "The start page.", tables, {**fits, "lead": "Start here."}, kind="start"),
            Page("chains/blue-520/", "blue-520", "Links on blue-520.", tables, fits, kind="chain"),
            Page("chains/", "Chains", "All chains.", tables, fits, kind="chains", in_nav=True, files=FILES),
            Page("pairs/", "All pairs", "All pairs.", tables, fits, kind="pairs", in_nav=True),
            Page("pairs/blue-520/tin-3-red/", "tin-3-red on blue-520", "A pair.", tables, pair, kind="pair"),
            Page("hostile/", HOSTILE, HOSTILE, tables, hostile, kind="hostile", in_nav=True),
        ),
        assets=(Asset("data/v1/fake.csv", "a,b\n1,2\n"), Asset("data/v1/fake.json", b'{"a": 1}\n')),
        values={
            "hostile": HOSTILE,
            # what the hand-written pages that ship print
            "clip_direction": clip_direction_drawing(),
            "counting": counting_drawing(),
        },
    )


def _hostile_table() -> Table:
    cells = (Cell(HOSTILE), Cell(verdict=shown_verdict("no-go", 3, 3)), Cell(HOSTILE, note=HOSTILE))
    return Table("hostile", HOSTILE, _COLUMNS[:3], (Row(cells, id="hostile-row"),))
