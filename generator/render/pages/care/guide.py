"""The pages of the guide, each of the same parts in the same order."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from jinja2 import DictLoader
from markupsafe import Markup

from generator.model.care import Guide, NeededTool
from generator.model.dataset import Dataset
from generator.render.base.components import GoRow, Need
from generator.render.base.page import Page
from generator.render.environment import environment
from generator.render.pages.book import Book
from generator.render.pages.care.figures import figures
from generator.render.pages.care.linked import WordLinks
from generator.render.say.cautions import ShownCaution, shown_caution
from generator.render.say.names import listed

CARE = "care/"
GROUPS = {
    "ride": "Round the ride",
    "measure": "Measuring",
    "joint": "At the joint",
    "care": "Care and the end",
}


@dataclass(frozen=True, slots=True)
class ShownStep:
    """One action, the sign that it is done, what guards it, a file of site_overrides/drawings."""

    do: Markup
    sign: Markup
    picture: str
    caution: ShownCaution | None
    to: tuple[str, str] | None


@dataclass(frozen=True, slots=True)
class ShownIfNot:
    """What is seen instead, what to do, and the page that helps, where there is one."""

    sees: Markup
    do: Markup
    to: str
    title: str


class Texts:
    """Fills figures in and links words, in the order in which a page is read."""

    def __init__(self, dataset: Dataset, path: str, values: Mapping[str, Markup]) -> None:
        self.env = environment(DictLoader({}))
        self.values = values
        self.words = WordLinks(dataset.shelf.glossary, path)

    def plain(self, text: str) -> Markup:
        # most texts have no figure to fill in
        return Markup(self.env.from_string(text).render(n=self.values) if "{" in text else text)

    def linked(self, text: str | None) -> Markup:
        return self.words.linked(self.plain(text)) if text else Markup("")


def guide_pages(book: Book) -> Iterator[Page]:
    dataset = book.dataset
    values = figures(dataset)
    for id_, guide in dataset.shelf.care.guides.items():
        yield _page(dataset, id_, guide, Texts(dataset, guide_route(id_), values))


def guide_route(id_: str) -> str:
    return f"{CARE}{id_}/"


def _page(dataset: Dataset, id_: str, guide: Guide, texts: Texts) -> Page:
    context = {
        "title": guide.title,
        "lead": texts.linked(guide.lead),
        "who": texts.plain(guide.who),
        "when": texts.plain(guide.when),
        "cautions": tuple(_caution(dataset, each) for each in guide.cautions),
        "need": _need_line(dataset, guide),
        "needs": tuple(_needs(dataset, guide)),
        "steps": tuple(_steps(dataset, guide, texts)),
        "done_when": tuple(texts.linked(each) for each in guide.done_when),
        "if_not": tuple(_if_nots(dataset, guide, texts)),
        "disagree": tuple(texts.linked(each) for each in guide.disagree),
        "then": guide_rows(dataset, guide.next),
    }
    search = (guide.title.lower(), *guide.search)
    return Page(
        guide_route(id_), guide.title, guide.description, "handbook/guide.html", context, search, kind="care"
    )


def guide_rows(dataset: Dataset, ids: Iterable[str]) -> list[GoRow]:
    guides = dataset.shelf.care.guides
    return [GoRow(guide_route(id_), guides[id_].title, detail=guides[id_].description) for id_ in ids]


def _caution(dataset: Dataset, id_: str) -> ShownCaution:
    return shown_caution(id_, dataset.shelf.cautions[id_])


def _steps(dataset: Dataset, guide: Guide, texts: Texts) -> Iterator[ShownStep]:
    for step in guide.steps:
        caution = _caution(dataset, step.caution) if step.caution else None
        do, sign = texts.plain(step.do), texts.linked(step.sign)
        yield ShownStep(do, sign, f"guide-{step.picture}" if step.picture else "", caution, step.to)


def _if_nots(dataset: Dataset, guide: Guide, texts: Texts) -> Iterator[ShownIfNot]:
    for each in guide.if_not:
        title = dataset.shelf.care.guides[each.page].title if each.page else ""
        to = guide_route(each.page) if each.page else ""
        yield ShownIfNot(texts.linked(each.sees), texts.linked(each.do), to, title)


def _need_line(dataset: Dataset, guide: Guide) -> str:
    needs = dataset.shelf.care.needs
    return f"{listed([needs[id_].title for id_ in guide.tools])}."


def _needs(dataset: Dataset, guide: Guide) -> Iterator[Need]:
    """The club's own tools of that job, or the thing by its plain name."""
    for id_ in guide.tools:
        need = dataset.shelf.care.needs[id_]
        own = tuple(_own_tools(dataset, need))
        yield from own or (Need(need.picture, need.title, need.note or ""),)


def _own_tools(dataset: Dataset, need: NeededTool) -> Iterator[Need]:
    for id_, tool in dataset.tools.items() if need.does else ():
        if tool.record.does != need.does or not tool.record.count:
            continue
        key = dataset.tools.get(tool.record.key or "")
        gone = f"missing: {key.label}" if key is not None and not key.record.count else ""
        with_key = f"with {key.label}" if key is not None and key.record.count else ""
        sizes = ", ".join(tool.record.takes)
        detail = "; ".join(text for text in (f"for {sizes}" if sizes else "", with_key) if text)
        yield Need(need.picture, tool.label, detail, tool.record.kept_in or "", gone, f"tools/{id_}/")
