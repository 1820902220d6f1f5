"""Reads card files back: sizes, texts with their places, lines, pictures of pages, codes; in mm from the upper left.

Two readers: `pages` gives lines, and letters in the order they stand in the file; `letters_of` gives letters alone, in a
twentieth of the time.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from ctypes import c_double, c_float, c_int, create_string_buffer
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


def texts_of(file: Path) -> list[str]:
    """By page; quick, and not in lines as they are set."""
    with _opened(file) as document:
        return [str(page.get_textpage().get_text_bounded()) for page in document]


def _letters(page: Any) -> Iterator[Letter]:
    """From where it is set, as high as its type: the reader's own boxes are now of the type, now of the ink."""
    height, text = page.get_height(), page.get_textpage()
    box, matrix, name, flags = pdfium.FS_RECTF(), pdfium.FS_MATRIX(), create_string_buffer(200), c_int()
    left, base, below = c_double(), c_double(), c_float()
    for at in range(text.count_chars()):
        # this reader's mark for a hyphen that ends a line
        letter = chr(pdfium.FPDFText_GetUnicode(text, at)).replace("\x02", "-")
        if not letter.strip() or pdfium.FPDFText_IsGenerated(text, at):
            continue
        font = pdfium.FPDFTextObj_GetFont(pdfium.FPDFText_GetTextObject(text, at))
        assert pdfium.FPDFText_GetCharOrigin(text, at, left, base) and pdfium.FPDFFont_GetDescent(
            font, 1.0, below
        )
        assert pdfium.FPDFText_GetLooseCharBox(text, at, box) and pdfium.FPDFText_GetMatrix(text, at, matrix)
        assert pdfium.FPDFText_GetFontInfo(text, at, name, len(name), flags)
        size = pdfium.FPDFText_GetFontSize(text, at) * hypot(matrix.c, matrix.d)
        bottom = height - base.value - below.value * size
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
