"""Places on the long pages: each caution, each problem code."""

from collections.abc import Iterator, Mapping

from generator.model.dataset import Dataset
from generator.render.base.page import Page
from generator.render.pages.reference.codes import Family
from generator.render.search.entry import Entry, shortened

SAFETY = "safety/"
CODES = "problems/"
_CODE_FAVOUR = 40  # riders do not look for them, and whoever keeps the records types the code


def caution_entries(dataset: Dataset, pages: Mapping[str, Page]) -> Iterator[Entry]:
    """What to do comes before what may happen: it is what a line of the list has room for."""
    for id_, caution in dataset.shelf.cautions.items() if SAFETY in pages else ():
        yield Entry(
            path=f"{SAFETY}#{id_}",
            title=caution.title,
            kind="safety",
            says=shortened(caution.avoid),
            phrases=(id_.replace("-", " "),),
            words=f"{caution.hazard} {caution.consequence}",
        )


def code_entries(dataset: Dataset, pages: Mapping[str, Page]) -> Iterator[Entry]:  # noqa: ARG001 - as its neighbours
    """A code that `handbook check` printed leads to its own place."""
    families = pages[CODES].context["families"] if CODES in pages else ()
    assert isinstance(families, tuple)
    for family in families:
        assert isinstance(family, Family)
        for shown in family.codes:
            yield Entry(
                path=f"{CODES}#{shown.code}",
                title=f"{shown.code}: {shown.title}",
                kind="problem code",
                says=shown.level,
                labels=(shown.code,),
                favour=_CODE_FAVOUR,
            )
