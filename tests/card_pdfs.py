"""Reads card files back: sizes, texts with their places, lines, pictures of pages, codes; in mm from the upper left.

Two readers: `pages` gives lines, and letters in the order they stand in the file; `letters_of` gives letters alone, in a
twentieth of the time.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from ctypes import c_double, c_int, create_string_buffer
from dataclasses import dataclass
from functools import lru_cache
from math import hypot
from pathlib import Path
from typing import Any

import pdfplumber
import pypdfium2  # type: ignore[import-untyped] # comes with pdfplumber
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]
import zxingcpp
from PIL.Image import Image

POINT = 25.4 / 72  # mm


@dataclass(frozen=True, slots=True)
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


@contextmanager
def _opened(file: Path) -> Iterator[Any]:
    document = pypdfium2.PdfDocument(file)
    try:
        yield document
    finally:
        document.close()


def letters_of(file: Path) -> list[list[Letter]]:
    """By page; a ligature is the letters it stands for, blanks are left out."""
    with _opened(file) as document:
        return [list(_letters(page)) for page in document]


def _letters(page: Any) -> Iterator[Letter]:
    height, text = page.get_height(), page.get_textpage()
    box, matrix, name, flags = pdfium.FS_RECTF(), pdfium.FS_MATRIX(), create_string_buffer(200), c_int()
    left, base = c_double(), c_double()
    for at in range(text.count_chars()):
        letter = chr(pdfium.FPDFText_GetUnicode(text, at))
        if not letter.strip() or pdfium.FPDFText_IsGenerated(text, at):
            continue
        # from where it is set and as wide as it moves on, like the other reader: the hook of a j stands before that
        assert pdfium.FPDFText_GetLooseCharBox(text, at, box) and pdfium.FPDFText_GetMatrix(text, at, matrix)
        assert pdfium.FPDFText_GetCharOrigin(text, at, left, base)
        assert pdfium.FPDFText_GetFontInfo(text, at, name, len(name), flags)
        size = pdfium.FPDFText_GetFontSize(text, at) * hypot(matrix.c, matrix.d)
        bottom = height - box.bottom
        spot = (left.value * POINT, (bottom - size) * POINT, box.right * POINT, bottom * POINT)
        yield Letter(letter, *spot, size, name.value.decode().partition("+")[2])


def picture(file: Path, page: int = 0, dots_per_inch: int = 200) -> Image:
    """As it comes out of a printer of so many dots."""
    with _opened(file) as document:
        image: Image = document[page].render(scale=dots_per_inch / 72).to_pil()
        return image


def codes(file: Path, page: int = 0) -> Iterator[str]:
    """Every code on a page, read from its picture."""
    for found in zxingcpp.read_barcodes(picture(file, page, 300)):
        yield found.text
