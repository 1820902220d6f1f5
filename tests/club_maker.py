"""Clubs made up by a seeded generator, with parts as they are sold: raw clubs that pass the whole validation.

Dimensions follow from ranges of memory (no source): width over plates from the size code, pins and clips from the chain
they were made for, each with a little scatter.
"""

from dataclasses import dataclass
from random import Random
from typing import Any

from tests.clubs import Raw

# code, kind: pitch, inner width, pin, outer plate, gap between plates, clip
FAMILIES: dict[tuple[str, str], tuple[float, float, float, float, float, float]] = {
    ("420", "plain"): (12.7, 6.25, 3.97, 1.5, 0.15, 0.8),
    ("428", "plain"): (12.7, 7.85, 4.48, 1.6, 0.15, 0.9),
    ("428", "sealed"): (12.7, 7.85, 4.50, 1.9, 1.0, 0.9),
    ("520", "plain"): (15.875, 6.25, 5.16, 2.0, 0.2, 1.1),
    ("520", "sealed"): (15.875, 6.25, 5.24, 2.1, 1.05, 1.1),
    ("520H", "plain"): (15.875, 6.25, 5.20, 2.3, 0.2, 1.1),
    ("525", "sealed"): (15.875, 7.85, 5.40, 2.3, 1.15, 1.2),
    ("530", "sealed"): (15.875, 9.40, 5.50, 2.4, 1.2, 1.2),
}
# how much higher or lower a part of another make may be, mm
SCATTER = 0.12
# of a plate, as a part of its thickness
HEIGHT = 7
WORN_CLIPS = (0.8, 0.58)


@dataclass(frozen=True)
class Maker:
    """Writes lengths the way one club does."""

    random: Random
    unit: str = "mm"
    unknown_percent: int = 0

    def length(self, value: float, plus_minus: float = 0.0) -> str:
        if self.random.randint(1, 100) <= self.unknown_percent:
            return "unknown"
        if self.unit == "mm":
            text = f"{value:.2f}" + (f" ± {plus_minus:.2f}" if plus_minus else "")
        else:
            text = f"{value / 25.4:.4f}" + (f" ± {plus_minus / 25.4:.4f}" if plus_minus else "")
        return f"{text} {self.unit}"

    def about(self, value: float) -> float:
        return value + self.random.uniform(-SCATTER, SCATTER)

    def chain(self, code: str, kind: str) -> tuple[dict[str, Any], dict[str, float]]:
        """The record, and the numbers its joint is made to."""
        _, inner, pin, plate, gap, _ = FAMILIES[code, kind]
        plates = self.about(inner + 2 * plate)
        between = plates + 2 * (gap + self.random.uniform(0, 0.1))
        proud = 0.3 if kind == "sealed" else 0.0
        heads = between + 2 * plate + 1.9
        record = {
            "size_code": code,
            "kind": kind,
            "seal": self.random.choice(("O", "X")) if kind == "sealed" else "none",
            "own_joint": self.random.choice(("clip-press", "rivet")) if kind == "sealed" else "clip-slip",
            "measured_with": "bench",
            "bush_bore": self.length(pin + 0.06, 0.02),
            "over_inner_plates": self.length(plates, 0.02),
            "over_bush_ends": self.length(plates + proud, 0.02),
            "between_outer_plates": self.length(between, 0.02),
            "plate_thickness": self.length(plate, 0.02),
            "over_riveted_pins": self.length(heads, 0.05),
            "elongation": self.random.choice(("0.2", "0.5", "0.8", "1.3", "3.4")),
            "plate_height": self.length(HEIGHT * plate, 0.1),
            "state": "as-made",
            "rub_marks": "no",
        }
        return record, {"between": between, "plates": plates, "pin": pin, "plate": plate}

    def clip(self, code: str, kind: str) -> tuple[dict[str, Any], dict[str, float]]:
        pitch, _, pin, _, _, thick = FAMILIES[code, kind]
        thickness = thick * self.random.choice((1, 1, 1, 1, *WORN_CLIPS))
        groove = round(pin * 0.75, 2)
        record = {
            "history": self.random.choice(("new", "never-off", "off-once"))
            if thickness == thick
            else "off-once",
            "measured_with": "bench",
            "thickness": self.length(thickness, 0.02),
            "thickness_new": self.length(thick),
            "seat_width": self.length(groove - 0.1, 0.04),
            "mouth": self.length(groove - 0.5, 0.04),
            "pin_spacing": self.length(pitch, 0.05),
        }
        return record, {"thick": thick, "groove": groove}

    def link(self, code: str, kind: str, made_to: dict[str, float], clip: dict[str, float]) -> dict[str, Any]:
        plate = made_to["plate"]
        width = clip["thick"] + 0.12
        # the groove just clears the clip when the plate is level with its neighbours
        reach = self.about(made_to["between"] + 0.1) + plate + clip["thick"] - width
        plate_fit = "slip" if kind == "plain" else self.random.choice(("press", "press", "press-to-shoulder"))
        shoulder = (
            {"shoulder_depth": self.length(made_to["between"], 0.02)}
            if plate_fit == "press-to-shoulder"
            else {}
        )
        return {
            "size_code": code,
            "closure": "clip",
            "plate_fit": plate_fit,
            "made_for": kind,
            "condition": self.random.choice(("new", "new", "fitted-once")),
            "half_link": "no",
            "measured_with": "bench",
            "pin_diameter": self.length(self.random.choice((0.0, 0.0, -0.06)) + made_to["pin"], 0.01),
            "pin_reach": self.length(reach, 0.04),
            "groove_width": self.length(width, 0.02),
            "groove_diameter": self.length(clip["groove"], 0.04),
            "pin_length": self.length(reach + width + 0.9, 0.04),
            "side_plate_thickness": self.length(plate, 0.02),
            "side_plate_height": self.length(HEIGHT * plate, 0.1),
            "fixed_plate_thickness": self.length(plate, 0.02),
            "head_stand_out": self.length(0.9, 0.05),
            **shoulder,
        }

    def seals(self, made_to: dict[str, float]) -> dict[str, Any]:
        room = (made_to["between"] - made_to["plates"]) / 2
        return {
            "shape": self.random.choice(("O", "X")),
            "covers_bush": "yes",
            "measured_with": "bench",
            "thickness": self.length(room / 0.82, 0.05),
        }


def club(
    seed: int,
    bikes: int,
    chains: int,
    links: int,
    unit: str = "mm",
    unknown_percent: int = 0,
    carried: int = 6,
) -> Raw:
    """So many of each, every link with a clip of its own and, for sealed chain, its seals; so many of the
    clips are carried, and each of those is an option for every link."""
    random = Random(seed)
    maker, known = Maker(random, unit, unknown_percent), Maker(random, unit)
    families = sorted(FAMILIES)
    raw: dict[str, Any] = {kind: {} for kind in ("chains", "links", "clips", "seals", "bikes")}
    raw["club"] = _itself(seed, unit)
    numbers = []
    for n in range(chains):
        family = families[maker.random.randrange(len(families))]
        raw["chains"][f"chain-{n:03}"], made_to = maker.chain(*family)
        numbers.append((family, made_to))
    for n in range(links):
        (code, kind), made_to = numbers[maker.random.randrange(len(numbers))]
        raw["clips"][f"clip-{n:03}"], clip = maker.clip(code, kind)
        raw["links"][f"link-{n:03}"] = maker.link(code, kind, made_to, clip) | {"clip": f"clip-{n:03}"}
        if kind == "sealed":
            raw["seals"][f"seals-{n:03}"] = maker.seals(made_to)
            raw["links"][f"link-{n:03}"]["seals"] = f"seals-{n:03}"
        if n >= carried:
            raw["clips"][f"clip-{n:03}"]["count"] = "0"
    for n in range(bikes):
        raw["bikes"][f"bike-{n:03}"] = {
            "chain": f"chain-{n % chains:03}",
            "front_teeth": "14",
            "rear_teeth": "48",
            "pitches": str(2 * maker.random.randint(52, 58)),
            "joint_in_manual": "clip",
            "clearance_clip_side": known.length(maker.random.choice((3.5, 4.0, 5.0)), 0.25),
            "clearance_other_side": known.length(maker.random.choice((4.0, 5.0)), 0.25),
        }
    return raw


def _itself(seed: int, unit: str) -> dict[str, Any]:
    """club.yaml."""
    return {
        "name": f"A made-up club, number {seed}",
        "id": f"made-up-{seed}",
        "invented": "yes",
        "as_of": "2027-03-01",
        "units": unit,
        "instruments": {"bench": {"kind": "digital-caliper"}},
    }


def one_bike() -> Raw:
    return club(1, bikes=1, chains=1, links=1)


def inches_and_gaps() -> Raw:
    """Everything in inches, and every dimension written as unknown but the room on the bikes."""
    return club(2, bikes=3, chains=3, links=6, unit="in", unknown_percent=100)


def forty_bikes() -> Raw:
    return club(3, bikes=40, chains=22, links=60, unknown_percent=3)


def small_club(random: Random) -> Raw:
    return club(random.randint(10, 99), bikes=3, chains=3, links=5)


def sixty_by_two_hundred() -> Raw:
    return club(4, bikes=60, chains=60, links=200, carried=60)
