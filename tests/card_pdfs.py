"""Reads card files back: sizes, texts with their places, lines, pictures of pages, codes; in mm from the upper left."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import pdfplumber
import pypdfium2  # type: ignore[import-untyped] # comes with pdfplumber
import zxingcpp
from PIL.Image import Image

POINT = 25.4 / 72  # mm


@dataclass(frozen=True)
class Letter:
    """One printed character."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    size: float
    font: str


@dataclass(frozen=True)
class PrintedPage:
    """One page with what is printed on it."""

    width: float
    height: float
    letters: tuple[Letter, ...]
    lines: tuple[tuple[float, float, float, float], ...]
    text: str


@lru_cache(maxsize=64)
def pages(file: Path, most: int | None = None) -> tuple[PrintedPage, ...]:
    with pdfplumber.open(file) as pdf:
        return tuple(_page(page) for page in pdf.pages[:most])


def _page(page: Any) -> PrintedPage:
    letters = tuple(
        Letter(
            each["text"],
            each["x0"] * POINT,
            each["top"] * POINT,
            each["x1"] * POINT,
            each["bottom"] * POINT,
            each["size"],
            each["fontname"].partition("+")[2],
        )
        for each in page.chars
        if each["text"].strip()
    )
    lines = tuple(
        (each["x0"] * POINT, each["top"] * POINT, each["x1"] * POINT, each["bottom"] * POINT)
        for each in page.lines
    )
    return PrintedPage(page.width * POINT, page.height * POINT, letters, lines, page.extract_text())


def picture(file: Path, page: int = 0, dots_per_inch: int = 200) -> Image:
    """As it comes out of a printer of so many dots."""
    document = pypdfium2.PdfDocument(file)
    try:
        image: Image = document[page].render(scale=dots_per_inch / 72).to_pil()
        return image
    finally:
        document.close()


def codes(file: Path, page: int = 0) -> Iterator[str]:
    """Every code on a page, read from its picture."""
    for found in zxingcpp.read_barcodes(picture(file, page, 300)):
        yield found.text
