"""No-go is the loudest in light, dark, grey and print, and to eyes that see colours otherwise.

Outside source: the vision deficiencies are simulated by Chromium itself (Emulation.setEmulatedVisionDeficiency of its
protocol); lightness is L* of CIE 1976 from WCAG's relative luminance, from memory.
"""

import struct
import zlib
from collections.abc import Iterator
from itertools import pairwise

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import opened

PLATES = ("proper", "get-home", "last-resort", "no-go")
SIGHTS = ("none", "achromatopsia", "deuteranopia", "protanopia", "tritanopia", "blurredVision")


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with opened(browser, 360, bypass_csp=True) as page:
        yield page


def pixel(png: bytes, x: int, y: int) -> tuple[int, int, int]:
    """Of a picture without interlacing, eight bits a channel, as browsers write them."""
    width, _height, _depth, colour = struct.unpack(">IIBB", png[16:26])
    size = {2: 3, 6: 4}[colour]
    at, data = 8, b""
    while at < len(png):
        (length,) = struct.unpack(">I", png[at : at + 4])
        data += png[at + 8 : at + 8 + length] if png[at + 4 : at + 8] == b"IDAT" else b""
        at += 12 + length
    raw, before = zlib.decompress(data), bytearray(width * size)
    for row in range(y + 1):
        start = row * (width * size + 1)
        before = _unfiltered(raw[start], raw[start + 1 : start + 1 + width * size], before, size)
    red, green, blue = before[x * size : x * size + 3]
    return red, green, blue


def _unfiltered(kind: int, line: bytes, above: bytearray, size: int) -> bytearray:
    out = bytearray(len(line))
    for i, byte in enumerate(line):
        left = out[i - size] if i >= size else 0
        corner = above[i - size] if i >= size else 0
        guess = left + above[i] - corner
        near = min((left, above[i], corner), key=lambda value: abs(guess - value))
        out[i] = (byte + (0, left, above[i], (left + above[i]) // 2, near)[kind]) % 256
    return out


def lightness(rgb: tuple[int, int, int]) -> float:
    channels = [c / 255 for c in rgb]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    y = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return 116 * y ** (1 / 3) - 16 if y > 0.008856 else 903.3 * y


def seen(page: Page, sight: str) -> list[float]:
    """L* of the ground and of each plate, as the eye has it."""
    page.context.new_cdp_session(page).send("Emulation.setEmulatedVisionDeficiency", {"type": sight})
    boxes = page.locator(".trial").evaluate_all("all => all.map((e) => e.getBoundingClientRect().toJSON())")
    png = page.screenshot()
    inside = [
        pixel(png, int(box["x"] + box["width"] - 30), int(box["y"] + box["height"] / 2)) for box in boxes
    ]
    return [lightness(pixel(png, 4, int(boxes[0]["y"]))), *(lightness(each) for each in inside)]


def put(page: Page, address: str) -> None:
    """The four plates, one below the other, over a page of the handbook."""
    page.goto(address)
    page.evaluate(
        """(words) => { document.body.innerHTML = words.map((word) =>
          `<p class="plate panel trial v-${word}"><b>x</b></p>`).join(""); scrollTo(0, 0); }""",
        list(PLATES),
    )


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_worse_the_further_from_the_ground_however_colours_are_seen(
    page: Page, fake_address: str, scheme: str
) -> None:
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    put(page, fake_address + "index.html")
    for sight in SIGHTS:
        ground, *plates = seen(page, sight)
        away = [abs(plate - ground) for plate in plates]
        assert away == sorted(away), (sight, away)
        assert all(other - one >= 8 for one, other in pairwise(away)), (sight, away)
        assert away[-1] >= 80, (sight, away)


def test_on_paper_only_no_go_is_black(page: Page, fake_address: str) -> None:
    page.emulate_media(media="print")
    put(page, fake_address + "index.html")
    edges = page.locator(".trial").evaluate_all(
        "all => all.map((e) => [getComputedStyle(e).backgroundColor, parseFloat(getComputedStyle(e).borderTopWidth)])"
    )
    grounds, widths = zip(*edges, strict=True)
    assert grounds == ("rgb(255, 255, 255)",) * 3 + ("rgb(0, 0, 0)",)
    assert widths[0] < widths[1] < widths[2], "the edge gets heavier"


def test_hazards_are_square_and_banded_and_verdicts_are_neither(page: Page, demo_address: str) -> None:
    page.goto(f"{demo_address}safety/index.html")
    page.locator("details").evaluate_all("all => all.forEach((e) => { e.open = true; })")
    boxes = page.locator(".hazard")
    assert boxes.count() > 5
    looks = boxes.evaluate_all(
        """all => all.map((e) => [getComputedStyle(e).borderTopLeftRadius, parseFloat(getComputedStyle(e).borderLeftWidth)
          + (getComputedStyle(e, "::before").content === "none" ? 0 : 14)])"""
    )
    assert {radius for radius, _ in looks} == {"0px"}
    assert min(band for _, band in looks) >= 4
    page.goto(f"{demo_address}pairs/index.html")
    plates = page.locator(".mini").evaluate_all(
        "all => all.map((e) => parseFloat(getComputedStyle(e).borderTopLeftRadius))"
    )
    assert min(plates) >= 8
