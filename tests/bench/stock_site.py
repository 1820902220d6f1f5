"""A handbook's words as plain pages of the stock theme, with its own search: what ours is measured beside."""

import logging
import re
from html.parser import HTMLParser
from pathlib import Path

from mkdocs.commands.build import build as run_builder
from mkdocs.config import load_config

SETTINGS = """\
site_name: Stock
docs_dir: docs
theme:
  name: material
nav:
  - index.md
validation:
  nav:
    omitted_files: ignore
"""
_SIGN = re.compile(r"[^\w\s]")


class _Words(HTMLParser):
    """The text inside the main part of a page, a line for each element that starts one."""

    def __init__(self) -> None:
        super().__init__()
        self.inside = 0
        self.parts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
        if tag == "main" or self.inside:
            self.inside += tag == "main"
            if tag in ("p", "tr", "li", "h1", "h2", "h3", "dt", "dd", "caption"):
                self.parts.append("\n\n")

    def handle_endtag(self, tag: str) -> None:
        self.inside -= tag == "main"

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.parts.append(data)


def words_of(html: str) -> str:
    """Paragraphs of Markdown that show the words of a page and nothing else."""
    reader = _Words()
    reader.feed(html)
    lines = (" ".join(line.split()) for line in "".join(reader.parts).split("\n\n"))
    return "\n\n".join(_SIGN.sub(lambda sign: f"&#{ord(sign[0])};", line) for line in lines if line)


def build_stock(built: Path, folder: Path) -> Path:
    """The stock site of all pages in `built`; made in `folder`."""
    write_words(built, folder)
    run_stock(folder)
    return folder / "site"


def write_words(built: Path, folder: Path) -> None:
    """The words of all pages in `built`, as Markdown below `folder`."""
    docs = folder / "docs"
    for page in sorted(built.rglob("index.html")):
        target = docs / page.relative_to(built).with_suffix(".md")
        target.parent.mkdir(parents=True, exist_ok=True)
        title = page.parent.name if page.parent != built else "Start"
        body = words_of(page.read_text(encoding="utf-8"))
        target.write_text(f"# {title}\n\n{body}\n", encoding="utf-8")


def run_stock(folder: Path) -> None:
    """Builds `folder`/docs into `folder`/site."""
    (folder / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    logging.getLogger("mkdocs").setLevel(logging.ERROR)
    config = load_config(str(folder / "mkdocs.yml"))
    config.plugins.on_startup(command="build", dirty=False)
    run_builder(config)
