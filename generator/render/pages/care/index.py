"""The way into the guide, and what findings mean."""

from generator.compute.grouped import grouped
from generator.model.care import Finding
from generator.model.dataset import Dataset
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.care.guide import CARE, GROUPS, guide_route, guide_rows
from generator.render.pages.reference.cells import source_cell

INSPECTION = f"{CARE}inspection/"
PLAN = f"{CARE}plan/"
# what a finding does to the day
RIDES = {"stop": "Do not ride", "get-home": "Home only", "ride": "Ride, and mend it"}
LOOKS = {
    "clip": "Clip and plate",
    "seals": "Seals",
    "sprockets": "Sprockets",
    "chain": "Chain",
    "guide": "Guide",
    "slack": "Slack",
}


def care_page(book: Book) -> Page:
    dataset = book.dataset
    guides = dataset.shelf.care.guides
    found = grouped(guides, lambda id_: guides[id_].group)
    groups = [
        (group, title, guide_rows(dataset, found[group])) for group, title in GROUPS.items() if group in found
    ]
    lists = [
        GoRow(
            INSPECTION, "What a finding means", detail="What is seen on a chain, what it means, what to do."
        ),
        GoRow(PLAN, "Plan of care", detail="What is due, how often, and a calendar for the club."),
        GoRow("wear/", "How worn are the chains?", detail="Length, limit and hours left of every chain."),
    ]
    return Page(
        path=CARE,
        title="How to",
        description="How to look after a chain and mend its joint, step by step, with pictures.",
        template="handbook/care.html",
        context={"groups": groups, "lists": lists},
        search=("how to", "guide", "instructions", "maintenance", "care", "wear and care"),
        kind="care",
        in_nav=True,
    )


def inspection_page(book: Book) -> Page:
    dataset = book.dataset
    tables = tuple(_findings(dataset, part, title) for part, title in LOOKS.items())
    return Page(
        path=INSPECTION,
        title="What a finding means",
        description="What is seen or felt on a chain, what it means, what to do, and where that is known from.",
        template="handbook/inspection.html",
        context={"tables": tables},
        search=(
            "inspection",
            "hooked teeth",
            "tight spot",
            "side bow",
            "roller missing",
            "spun pin",
            "kinked link",
        ),
        kind="care",
        tables=tables,
    )


def _findings(dataset: Dataset, part: str, title: str) -> Table:
    columns = (
        Column("Finding", "head"),
        Column("What is seen", "long"),
        Column("What it means", "long"),
        Column("What to do", "long"),
        Column("Source"),
    )
    findings = dataset.shelf.care.findings.items()
    rows = tuple(_finding(dataset, id_, found) for id_, found in findings if found.looks_at == part)
    return Table(f"findings-{part}", title, columns, rows)


def _finding(dataset: Dataset, id_: str, found: Finding) -> Row:
    do = Cell(found.do, to=guide_route(found.page) if found.page else "")
    seen = Cell(found.sees, note=found.look)
    source = source_cell(dataset.shelf, found.source)
    return Row((Cell(found.title, note=RIDES[found.ride]), seen, Cell(found.means), do, source), id=id_)
