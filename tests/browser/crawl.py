"""One walk through every page of a handbook with many collectors, so that each page is opened only once."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urldefrag

from playwright.sync_api import Browser, Page

COLLECT = Path(__file__).with_name("collect.js").read_text(encoding="utf-8")
LISTEN = """
window.handbookPolicy = [];
document.addEventListener("securitypolicyviolation", (event) => {
  window.handbookPolicy.push(`${event.violatedDirective} ${event.blockedURI} ${event.sample}`);
});
"""
# name in collect.js -> the kind of fault in the report
COLLECTED = {
    "policy": "policy violation",
    "styled": "style attribute",
    "symbols": "symbol that is not in the page",
    "hidden": "verdict out of view",
    "clipped": "verdict cut off",
    "small": "control under 48 px",
    "wide": "page wider than the screen",
    "faint": "text of less than 7:1 contrast",
}


@dataclass
class Walk:
    """What the crawl found; `faults` by kind, each with the page it stands on."""

    root: str
    folder: Path
    faults: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    pages: dict[str, set[str]] = field(default_factory=dict)  # address -> ids
    anchors: list[tuple[str, str, str]] = field(default_factory=list)
    titles: dict[str, str] = field(default_factory=dict)
    verdicts: int = 0
    texts: int = 0

    def note(self, kind: str, where: str, whats: Iterable[str]) -> None:
        self.faults[kind].extend(f"{where.removeprefix(self.root)}: {what}" for what in whats)

    def file_of(self, address: str) -> Path:
        path = self.folder / unquote(address.removeprefix(self.root))
        return path / "index.html" if address.endswith("/") else path


def crawl(
    browser: Browser, root: str, folder: Path, width: int = 360, extra: Iterable[str] = (), **context: Any
) -> Walk:
    """From the start page along every link; `extra` names pages that nothing links to."""
    return _walk(browser, Walk(root, folder), ["index.html", *extra], width, True, context)


def look(browser: Browser, root: str, folder: Path, pages: Iterable[str], width: int = 360) -> Walk:
    """These pages only; that what they link to is there is seen on disk."""
    return _walk(browser, Walk(root, folder), pages, width, False, {})


def _walk(
    browser: Browser, walk: Walk, start: Iterable[str], width: int, on: bool, context: dict[str, Any]
) -> Walk:
    opened = browser.new_context(viewport={"width": width, "height": 800}, **context)
    page = opened.new_page()
    page.add_init_script(LISTEN)
    _listen(page, walk)
    waiting = [f"{walk.root}{path}" for path in start]
    while waiting:
        address = waiting.pop()
        if address not in walk.pages:
            found = _visit(page, walk, address)
            waiting.extend(found if on else ())
    opened.close()
    for where, target, anchor in walk.anchors:
        if anchor not in walk.pages.get(target, {anchor}):
            walk.note("anchor that is not there", where, [f"{target.removeprefix(walk.root)}#{anchor}"])
    return walk


def _listen(page: Page, walk: Walk) -> None:
    def asked(url: str) -> None:
        if not url.startswith((walk.root, "data:")):
            walk.note("request to another place", page.url, [url])

    page.on("request", lambda request: asked(request.url))
    # the icon of a page that was left at once is asked for and given up
    page.on(
        "requestfailed",
        lambda request: (
            walk.note("failed request", page.url, [request.url])
            if request.failure != "net::ERR_ABORTED"
            else None
        ),
    )
    page.on("pageerror", lambda error: walk.note("script error", page.url, [str(error)]))
    page.on(
        "console",
        lambda message: (
            walk.note("console message", page.url, [message.text])
            if message.type in ("error", "warning")
            else None
        ),
    )


def _visit(page: Page, walk: Walk, address: str) -> list[str]:
    page.goto(address, wait_until="load")
    found = page.evaluate(COLLECT)
    walk.pages[address] = set(found["ids"])
    walk.titles[address] = found["title"]
    walk.verdicts += found["verdicts"]
    walk.texts += found["texts"]
    repeated = {id_ for id_ in found["ids"] if found["ids"].count(id_) > 1}
    walk.note("id given twice", address, sorted(repeated))
    for name, kind in COLLECTED.items():
        walk.note(kind, address, found[name])
    return [*_follow(walk, address, found["links"]), *_follow(walk, address, found["sources"])]


def _follow(walk: Walk, where: str, links: list[str]) -> list[str]:
    """Pages to open next; a target with no file behind it is a broken link."""
    pages = []
    for link in dict.fromkeys(links):
        target, anchor = urldefrag(link)
        if not target.startswith(walk.root):
            walk.note("link to another place", where, [link])
        elif not walk.file_of(target).is_file():
            walk.note("broken link", where, [link])
        elif walk.file_of(target).suffix == ".html":
            pages.append(target)
            if anchor:
                walk.anchors.append((where, target, anchor))
    return pages


def faults(walk: Walk) -> dict[str, list[str]]:
    return {kind: sorted(set(found))[:20] for kind, found in walk.faults.items() if found}


def pages_of(folder: Path) -> set[str]:
    return {file.relative_to(folder).as_posix() for file in folder.rglob("*.html")}
