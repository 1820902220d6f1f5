"""The plan of care: what is due next on each bike, and how often each thing is done."""

from generator.compute.grouped import grouped
from generator.compute.wear.due import REPLACE, Due, due_next
from generator.model.care import CareTask
from generator.model.dataset import Dataset
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.contract.calendar import PATH
from generator.render.pages.book import Book
from generator.render.pages.care.figures import figure_text
from generator.render.pages.care.guide import guide_route
from generator.render.pages.care.index import PLAN
from generator.render.pages.reference.cells import source_cell
from generator.render.say.days import day_in_words
from generator.render.say.due import due_title, due_why

_CLIMATES = {"any": "any", "dry": "dry, dust", "wet": "wet, mud", "humid": "humid", "coast": "coast"}
_WHEN = ("Worn out", "Late", "Today", "Later")


def plan_page(book: Book) -> Page:
    dataset = book.dataset
    dues = due_next(dataset, book.wear)
    by_when = grouped(dues, lambda due: _when(dataset, due))
    groups = [
        (f"due-{word.lower().replace(' ', '-')}", word, [_row(dataset, due) for due in by_when[n]])
        for n, word in enumerate(_WHEN)
        if n in by_when
    ]
    tasks = _tasks(dataset)
    return Page(
        path=PLAN,
        title="Plan of care",
        description="What is due next on each bike, how often each thing is done, and a calendar for the club.",
        template="handbook/plan.html",
        context={
            "as_of": day_in_words(dataset.as_of),
            "groups": groups,
            "tasks": tasks,
            "calendar": PATH,
        },
        search=("care plan", "due", "calendar", "intervals", "how often", "service", "maintenance plan"),
        kind="care",
        tables=(tasks,),
    )


def _when(dataset: Dataset, due: Due) -> int:
    """Place in the list of headings; what is worn out comes before what is late."""
    return 0 if due.why == "worn" else 1 + (due.on >= dataset.as_of) + (due.on > dataset.as_of)


def _row(dataset: Dataset, due: Due) -> GoRow:
    name, detail = due_title(dataset, due), f"{day_in_words(due.on)}. {due_why(dataset, due)}"
    if due.ride:
        to = guide_route(dataset.shelf.care.tasks[due.task].page)
        return GoRow(to, name, due.ride, detail=detail)
    to = (
        f"wear/{dataset.bikes[due.bike].record.chain}/"
        if due.task == REPLACE
        else part_route("bike", due.bike)
    )
    return GoRow(to, name, due.bike, detail=detail)


def _tasks(dataset: Dataset) -> Table:
    columns = (
        Column("What", "head"),
        Column("Chain", "short"),
        Column("Climate", "short"),
        Column("When", "long"),
        Column("How", "long"),
        Column("Source"),
    )
    rows = tuple(_task(dataset, id_, task) for id_, task in dataset.shelf.care.tasks.items())
    return Table("care-tasks", "How often, by kind of chain, climate, washing and storage", columns, rows)


def _task(dataset: Dataset, id_: str, task: CareTask) -> Row:
    practices = dataset.shelf.care.practices
    every = [figure_text(practices[figure]) for figure in (task.hours, task.months, task.distance) if figure]
    source = source_cell(dataset.shelf, task.source)
    cells = (
        Cell(task.title, to=guide_route(task.page)),
        Cell(task.kind),
        Cell(_CLIMATES[task.climate]),
        Cell(task.when, note=f"every {' or '.join(every)}" if every else ""),
        Cell(task.do),
        source,
    )
    return Row(cells, id=id_)
