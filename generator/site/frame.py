"""What the frame around a page prints: names, menu, way to the root, version.

Goes in: a site, its menu and the facts of one page.  Comes out: a value for the theme's templates.
"""

from dataclasses import dataclass
from urllib.parse import urlsplit

from jinja2 import Environment

from generator.render.base.page import SiteFacts, relative_address
from generator.site.menu import MenuGroup

ALL_PAGES = "pages/"


@dataclass(frozen=True, slots=True)
class Frame:
    """`root` ends with a slash; `address` is what a printed sheet shows."""

    facts: SiteFacts
    title: str
    description: str
    path: str
    root: str
    address: str
    menu: tuple[MenuGroup, ...]
    shapes: str
    all_pages: str  # address of the list of all pages, for readers without scripts; empty for none


@dataclass(frozen=True, slots=True)
class FrameMaker:
    """What all frames of a site share."""

    facts: SiteFacts
    menu: tuple[MenuGroup, ...]
    shapes: str
    site_url: str

    def of_page(self, path: str, title: str, description: str, brief: bool = False) -> Frame:
        address = f"{self.site_url.rstrip('/')}/{path}" if self.site_url else path or "start page"
        root = relative_address(path, "")
        menu = self.menu[:1] if brief else self.menu
        return self._frame(title, description, path, root, address, menu)

    def of_error(self, title: str) -> Frame:
        """Shown at any address there is not, so its links count from the root of the host."""
        root = urlsplit(self.site_url).path.rstrip("/") + "/"
        return self._frame(title, title, "404.html", root, "", self.menu)

    def _frame(
        self, title: str, description: str, path: str, root: str, address: str, menu: tuple[MenuGroup, ...]
    ) -> Frame:
        listed = {entry.path for group in self.menu for entry in group.entries}
        every = ALL_PAGES if ALL_PAGES in listed else ""
        return Frame(self.facts, title, description, path, root, address, menu, self.shapes, every)


def shapes_of_verdicts(env: Environment) -> str:
    """The symbols that verdicts refer to, once in every page."""
    return env.get_template("handbook/shapes.html").render()
