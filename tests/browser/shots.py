"""Screenshots of a page of each kind, to be looked at: wide and narrow, by day, by night and on paper."""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Literal

from playwright.sync_api import Browser, sync_playwright

from tests.browser.conftest import FLAGS, find_chromium
from tests.browser.kinds import one_of_each
from tests.browser.served import served

# a page longer than this is cut off: what is below looks like what is above
MOST_PIXELS = 6000


@dataclass(frozen=True)
class Look:
    """How a page is looked at."""

    name: str
    width: int
    scheme: Literal["light", "dark"]
    media: Literal["screen", "print"] = "screen"


# the width of an A4 sheet between its margins, at 96 pixels an inch
PAPER = 680
LOOKS = (
    Look("phone-day", 360, "light"),
    Look("phone-night", 360, "dark"),
    Look("desk-day", 1280, "light"),
    Look("desk-night", 1280, "dark"),
    Look("paper", PAPER, "light", "print"),
)


def take(browser: Browser, root: str, pages: dict[str, str], to: Path) -> Iterator[tuple[str, str, str]]:
    """Writes the pictures; yields kind, look and file name of each."""
    for look in LOOKS:
        context = browser.new_context(viewport={"width": look.width, "height": 800}, color_scheme=look.scheme)
        page = context.new_page()
        page.emulate_media(media=look.media)
        for kind, address in pages.items():
            page.goto(root + address)
            height = min(int(page.evaluate("document.documentElement.scrollHeight")), MOST_PIXELS)
            file = f"{name_of(kind)}.{look.name}.png"
            clip = {"x": 0, "y": 0, "width": look.width, "height": max(height, 1)}
            page.screenshot(path=to / file, full_page=True, clip=clip)  # type: ignore[arg-type]
            yield kind, look.name, file
        context.close()


def name_of(kind: str) -> str:
    """`pairs/*/* no-go` is a page of one pair that is no-go."""
    return kind.replace("/*", "-one").replace("/", "-").replace(" ", "-").removesuffix(".html") or "start"


def index(pages: dict[str, str], taken: list[tuple[str, str, str]]) -> str:
    """A row a kind, its pictures side by side."""
    rows = []
    for kind, address in pages.items():
        cells = "".join(
            f'<figure><a href="{escape(file)}"><img src="{escape(file)}" alt="" width="220" loading="lazy"></a>'
            f"<figcaption>{escape(look)}</figcaption></figure>"
            for each, look, file in taken
            if each == kind
        )
        rows.append(f'<h2 id="{escape(name_of(kind))}">{escape(address)}</h2><div>{cells}</div>')
    style = (
        "body{font:16px sans-serif}div{display:flex;gap:1em;overflow:auto;align-items:start}figure{margin:0}"
    )
    head = f'<!doctype html><html lang="en"><meta charset="utf-8"><title>Screenshots</title><style>{style}</style>'
    return f"{head}<h1>Screenshots</h1>{''.join(rows)}</html>\n"


def main(site: Path, to: Path) -> None:
    to.mkdir(parents=True, exist_ok=True)
    for old in to.glob("*.png"):
        old.unlink()
    pages = one_of_each(site)
    with served(site) as root, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(FLAGS))
        taken = list(take(browser, root, pages, to))
        browser.close()
    (to / "index.html").write_text(index(pages, taken), encoding="utf-8")
    print(f"{len(taken)} pictures of {len(pages)} kinds of page: {to / 'index.html'}")


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
