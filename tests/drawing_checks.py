"""What every drawing must hold to: well-formed, without style or script, words apart and inside."""

import re
from dataclasses import dataclass
from math import isfinite
from xml.etree import ElementTree

from generator.render.drawings.letters import BOLD, text_width

SVG = "{http://www.w3.org/2000/svg}"
_ALLOWED = {
    "svg", "title", "desc", "defs", "pattern", "marker", "g", "line", "rect", "path", "circle", "ellipse", "text", "tspan",
    "polygon",
}  # fmt: skip


@dataclass(frozen=True)
class Words:
    """A text and the room it is estimated to take."""

    text: str
    left: float
    right: float
    top: float
    bottom: float

    def meets(self, other: "Words") -> bool:
        return (
            self.left < other.right - 0.01
            and other.left < self.right - 0.01
            and self.top < other.bottom
            and other.top < self.bottom
        )


@dataclass(frozen=True)
class Picture:
    """The sides of what is seen of it."""

    root: ElementTree.Element
    left: float
    top: float
    right: float
    bottom: float
    words: tuple[Words, ...]

    def all(self, name: str) -> list[ElementTree.Element]:
        return list(self.root.iter(SVG + name))

    def dims(self) -> dict[str, float]:
        """mm by name: length of the line divided by the scale of the root."""
        scale = float(self.root.attrib["data-scale"])
        found = [e for e in self.root.iter() if "data-dim" in e.attrib]
        assert len({e.attrib["data-dim"] for e in found}) == len(found), "a dimension is drawn twice"
        return {e.attrib["data-dim"]: abs(_signed(e)) / scale for e in found}

    def clearances(self) -> dict[str, tuple[float, int]]:
        """Signed mm and the sign written beside it, by check."""
        scale = float(self.root.attrib["data-scale"])
        return {
            e.attrib["data-clearance"]: (_signed(e) / scale, int(e.attrib["data-sign"]))
            for e in self.root.iter()
            if "data-clearance" in e.attrib
        }


def _signed(e: ElementTree.Element) -> float:
    x, y = (float(e.attrib[f"{axis}2"]) - float(e.attrib[f"{axis}1"]) for axis in "xy")
    assert x == 0 or y == 0
    return x or y


def picture(svg: str) -> Picture:
    """Parse and check what holds for every drawing."""
    root = ElementTree.fromstring(svg)
    assert root.tag == SVG + "svg" and root.attrib["role"] == "img"
    titles = [root.find(SVG + name) for name in ("title", "desc")]
    assert all(e is not None and e.text for e in titles)
    ids = [e.attrib["id"] for e in root.iter() if "id" in e.attrib]
    assert len(set(ids)) == len(ids)
    assert root.attrib["aria-labelledby"].split() == [e.attrib["id"] for e in titles if e is not None]
    for e in root.iter():
        assert e.tag.removeprefix(SVG) in _ALLOWED
        assert not [a for a in e.attrib if a == "style" or a.startswith("on") or "href" in a]
        for value in e.attrib.values():
            for ref in re.findall(r"url\(#([^)]*)\)", value):
                assert ref in ids
    box = [float(n) for n in root.attrib["viewBox"].split()]
    words = tuple(_all_words(root, _Inherited()))
    found = Picture(root, box[0], box[1], box[0] + box[2], box[1] + box[3], words)
    _finite(root)
    _apart_and_inside(found)
    return found


@dataclass(frozen=True)
class _Inherited:
    """What a text takes over from the groups it stands in."""

    size: float = 12.0
    anchor: str = "start"
    bold: bool = False
    down: float = 0.0

    def within(self, e: ElementTree.Element) -> "_Inherited":
        move = re.fullmatch(r"translate\(0 ([\d.]+)\)", e.attrib.get("transform", "translate(0 0)"))
        assert move, "no other movement is expected"
        return _Inherited(
            float(e.attrib.get("font-size", self.size)),
            e.attrib.get("text-anchor", self.anchor),
            self.bold or e.attrib.get("font-weight") == "bold",
            self.down + float(move[1]),
        )


def _all_words(e: ElementTree.Element, outer: _Inherited) -> list[Words]:
    here = outer.within(e)
    if e.tag != SVG + "text":
        return [w for child in e for w in _all_words(child, here)]
    # of the 360 units a phone of 360 px shows 336 px: what reads there must be 11 px tall
    assert here.size * 336 / 360 >= 11
    words = "".join(e.itertext())
    width = text_width(words, here.size) * (BOLD if here.bold else 1.0)
    left = float(e.attrib["x"]) - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[here.anchor]
    y = float(e.attrib["y"]) + here.down
    # capitals and figures stand 0.73 em high, tails hang 0.21 em
    return [Words(words, left, left + width, y - 0.73 * here.size, y + 0.21 * here.size)]


def steps_of(path: ElementTree.Element) -> list[str]:
    """The letters and the numbers of its line, one by one."""
    return re.findall(r"[A-Za-z]|-?[\d.]+", path.attrib["d"])


def _finite(root: ElementTree.Element) -> None:
    for e in root.iter():
        for name, value in e.attrib.items():
            if name in ("x", "y", "x1", "x2", "y1", "y2", "width", "height", "cx", "cy", "rx", "ry", "r"):
                assert isfinite(float(value)), (e.tag, name, value)
            if name == "d":
                assert not re.search("nan|inf|e", value, re.IGNORECASE)


def _apart_and_inside(found: Picture) -> None:
    for i, one in enumerate(found.words):
        assert one.left >= found.left - 0.01 and one.right <= found.right + 0.01, (
            f"'{one.text}' leaves the picture"
        )
        assert one.top >= found.top and one.bottom <= found.bottom + 0.01, f"'{one.text}' leaves the picture"
        for other in found.words[i + 1 :]:
            assert not one.meets(other), f"'{one.text}' lies on '{other.text}'"
    tiles = {id(e) for pattern in found.all("pattern") for e in pattern}
    for e in found.all("line") + found.all("rect"):
        if id(e) in tiles:
            continue
        for value in (e.attrib.get(n) for n in ("x", "x1", "x2")):
            assert value is None or -8 <= float(value) <= found.right + 8
