"""What the frame around a page prints: names, menu, what is on the page, way to the root, version."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from urllib.parse import urlsplit

from jinja2 import Environment
from markupsafe import escape

from generator.render.base.page import Download, Page, SiteFacts, relative_address, table_file
from generator.render.say.days import day_in_words
from generator.site.contents import Section
from generator.site.finish import inline_scripts
from generator.site.menu import MenuGroup

ALL_PAGES = "pages/"
# the first of these that there is stands under the thumb
BROKE = ("repair/", "clip-lost/", "safety/")


@dataclass(frozen=True, slots=True)
class Frame:
    """`root` ends with a slash; `address` is what a printed sheet shows; `here` is the page of the menu it belongs to."""

    facts: SiteFacts
    as_of: str  # in words
    title: str
    description: str
    path: str
    root: str
    here: str
    menu: tuple[MenuGroup, ...]
    shapes: str
    all_pages: str  # address of the list of all pages, for readers without scripts; empty for none
    broke: str
    address: str = ""
    files: tuple[Download, ...] = ()
    sections: tuple[Section, ...] = ()


@dataclass(frozen=True, slots=True)
class FrameMaker:
    """What all frames of a site share."""

    facts: SiteFacts
    menu: tuple[MenuGroup, ...]
    shapes: str
    site_url: str
    paths: frozenset[str] = frozenset()

    def of_page(
        self,
        path: str,
        title: str,
        description: str,
        ours: Page | None = None,
        sections: tuple[Section, ...] = (),
    ) -> Frame:
        """`ours` is none for a page that is hand-written from end to end."""
        address = f"{self.site_url.rstrip('/')}/{path}" if self.site_url else path or "start page"
        return replace(
            self._frame(title, description, path, relative_address(path, "")),
            address=address,
            menu=self.menu[:1] if ours and ours.brief else self.menu,
            files=tuple(_files_beside(ours)) if ours else (),
            sections=() if ours and (ours.wide or ours.brief) else sections,
        )

    def of_error(self, title: str) -> Frame:
        """Shown at any address there is not, so its links count from the root of the host."""
        root = escape(urlsplit(self.site_url).path.rstrip("/") + "/")
        return self._frame(title, title, "404.html", root)

    def _frame(self, title: str, description: str, path: str, root: str) -> Frame:
        return Frame(
            facts=self.facts,
            as_of=day_in_words(date.fromisoformat(self.facts.as_of)),
            title=title,
            description=description,
            path=path,
            root=root,
            here=_belongs_to(path, self.menu),
            menu=self.menu,
            shapes=self.shapes,
            all_pages=ALL_PAGES if ALL_PAGES in self.paths else "",
            broke=next((known for known in BROKE if known in self.paths), ""),
        )


def _files_beside(page: Page) -> Iterator[Download]:
    """The tables of a page as CSV, each by its name where there are several, then its other files."""
    for table in page.tables:
        label = "CSV" if len(page.tables) == 1 else f"CSV: {table.caption}"
        yield Download(label, relative_address(page.path, table_file(table)))
    for file in page.files:
        yield Download(file.label, relative_address(page.path, file.to))


def _belongs_to(path: str, menu: Iterable[MenuGroup]) -> str:
    """The entry of the menu that stands at or above an address."""
    listed = {entry.path for group in menu for entry in group.entries}
    while path and path not in listed:
        path = path[:-1].rpartition("/")[0] + "/" if "/" in path[:-1] else ""
    return path


def shapes_of_verdicts(env: Environment) -> str:
    """The symbols that pages refer to; finishing keeps those a page uses."""
    return env.get_template("handbook/shapes.html").render()


def own_scripts(env: Environment, frames: FrameMaker) -> tuple[str, ...]:
    """The scripts that our frame has within the page, as they stand there."""
    return inline_scripts(
        env.get_template("partials/javascripts/base.html").render(handbook=frames.of_error(""))
    )
