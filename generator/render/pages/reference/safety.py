"""All cautions: by the step they guard, and in full, the gravest first."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.model.dataset import Dataset
from generator.render.base.page import Page
from generator.render.base.table import Cell
from generator.render.pages.book import Book
from generator.render.pages.reference.cells import source_cell
from generator.render.say.cautions import ShownCaution, shown_caution

STEPS = {
    "check": "Before you look at the chain",
    "measure": "Before you measure",
    "press": "Before you fit, press, drive or file",
    "clean": "Before you clean or lubricate",
    "ride": "Before you pull away",
}
_GRAVEST_FIRST = ("danger", "warning", "caution", "notice")
# the practice the signal words follow, in the words of this handbook
SIGNALS = (
    ("danger", "If it is not avoided it will kill or maim."),
    ("warning", "If it is not avoided it could kill or maim."),
    ("caution", "If it is not avoided it could hurt you a little or somewhat."),
    ("notice", "It hurts nobody, but it spoils the chain, the bike or the place."),
)


@dataclass(frozen=True, slots=True)
class Step:
    """What is about to be done, and the cautions to read before it."""

    title: str
    cautions: tuple[ShownCaution, ...]


@dataclass(frozen=True, slots=True)
class Guarded:
    """A caution and where it comes from."""

    caution: ShownCaution
    source: Cell


def safety_page(book: Book) -> Page:
    dataset = book.dataset
    return Page(
        path="safety/",
        title="Safety",
        description="What can hurt you when you open, close or ride a chain, and how to avoid it.",
        template="handbook/safety.html",
        context={
            "steps": tuple(_steps(dataset)),
            "guarded": tuple(_guarded(dataset)),
            "signals": SIGNALS,
        },
        search=(
            "danger",
            "warning",
            "caution",
            "fingers",
            "goggles",
            "injury",
            "risk",
            "engine off",
            "hot exhaust",
            "eye protection",
        ),
        kind="safety",
        in_nav=True,
    )


def _steps(dataset: Dataset) -> Iterator[Step]:
    every = [guarded.caution for guarded in _guarded(dataset)]
    for step, title in STEPS.items():
        ids = {id_ for id_, caution in dataset.shelf.cautions.items() if step in caution.before}
        yield Step(title, tuple(caution for caution in every if caution.id in ids))


def _guarded(dataset: Dataset) -> tuple[Guarded, ...]:
    shelf = dataset.shelf
    found = [
        Guarded(shown_caution(id_, caution), source_cell(shelf, caution.source))
        for id_, caution in shelf.cautions.items()
    ]
    return tuple(sorted(found, key=lambda each: _GRAVEST_FIRST.index(each.caution.signal)))
