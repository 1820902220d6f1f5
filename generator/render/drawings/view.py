"""One way of looking at a part with a gauge on it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup

Gauge = Literal["jaws", "blades", "rod", "feelers", "shank", "none"]

GAUGE_WORDS: Mapping[Gauge, str] = {
    "jaws": "Solid blocks are the jaws: ",
    "blades": "Solid blocks are thin blades: ",
    "rod": "Solid is the depth rod with its foot: ",
    "feelers": "Solid blocks are feelers: ",
    "shank": "The grey disc is a drill shank: ",
    "none": "",
}


@dataclass(frozen=True, slots=True)
class View:
    """Title, kind of gauge, the shapes under an id prefix, and where the gauge touches."""

    title: str
    gauge: Gauge
    shapes: Callable[[str], Markup]
    touches: str
    bottom: float = 200.0
