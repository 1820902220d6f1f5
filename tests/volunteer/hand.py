"""What a careful hand finds on hidden parts: looks, dry fits, readings with one bias an instrument."""

from fractions import Fraction
from math import ceil, floor
from random import Random
from typing import Any

from generator.compute.acts import Act
from generator.compute.reading_cost import best_at_hand
from generator.model.dataset import Dataset
from generator.model.reading import Reading
from tests.volunteer.joint import Hidden

CALIPER = "caliper"
RAW_NAMES = {"chain": ("chains", "red"), "link": ("links", "tin"), "clip": ("clips", "tin-clip"),
             "seal": ("seals", "tin-rings"), "bike": ("bikes", "b1")}  # fmt: skip
CHOICES: dict[str, tuple[str, ...]] = {
    "condition": ("new", "fitted-once", "cracked", "drilled"), "history": ("new", "off-once", "bent"),
    "pull_off": ("under-half", "over-half", "most"), "state": ("as-made", "modified"),
}  # fmt: skip


class Volunteer:
    """Holds what one volunteer has written down so far, as a raw club."""

    def __init__(self, joint: Hidden, misreported: float = 0.0) -> None:
        self.joint = joint
        self.random = Random(10_000 + joint.seed)
        self.misreported = misreported
        # of every reading some is bias of the instrument, as a share of its plus-minus
        self.bias = self.random.uniform(-0.6, 0.6)
        self.raw = self._start()

    def _start(self) -> dict[str, Any]:
        """A size code and what anybody sees at once."""
        joint = self.joint
        kind = "sealed" if joint.sealed else "plain"
        chain: dict[str, Any] = {"size_code": "520", "kind": kind}
        if joint.in_use:
            chain |= {"own_link": "tin", "in_use": "yes"}
        link = {"size_code": "520", "closure": "clip", "plate_fit": "slip" if joint.slides else "press",
                "made_for": kind, "measured_with": CALIPER}  # fmt: skip
        kinds = {CALIPER: "digital-caliper", "tape": "tape", "feelers": "feeler-gauge"}
        return {
            "club": {"name": "A volunteer", "id": "volunteer", "as_of": "2027-03-01",
                     "instruments": {id_: {"kind": kind} for id_, kind in kinds.items()}},
            "chains": {"red": chain | {"measured_with": CALIPER}},
            "links": {"tin": link},
            "clips": {}, "seals": {},
            "bikes": {"b1": {"chain": "red", "front_teeth": "13", "rear_teeth": "48", "pitches": "112",
                             "joint_in_manual": "clip"}},
            "trials": {},
        }  # fmt: skip

    def do(self, act: Act, dataset: Dataset) -> None:
        {"look": self._look, "dry-fit": self._dry_fit, "measure": self._measure}[act.kind](act, dataset)

    def _record(self, reading: Reading) -> dict[str, Any]:
        file, id_ = RAW_NAMES[reading.kind]
        record: dict[str, Any] = self.raw[file].setdefault(id_, {})
        return record

    def _look(self, act: Act, _: Dataset) -> None:
        if any(reading.kind == "chain" and reading.field in joint_looks(self.joint) for reading in act.ask):
            self.raw["chains"]["red"]["looked_on"] = "2027-02-20"
        for reading in act.ask:
            if reading.kind == "link" and reading.field in ("clip", "seals"):
                self._name_part(reading.field)
            else:
                self._record(reading)[reading.field] = self._seen(reading)

    def _name_part(self, field: str) -> None:
        """What lies in the packet gets a record of its own."""
        words = self.joint.words
        if field == "clip":
            history = self._perhaps_wrong("history", words["clip"]["history"])
            self.raw["clips"]["tin-clip"] = {"history": history, "count": "2", "measured_with": CALIPER}
            self.raw["links"]["tin"]["clip"] = "tin-clip"
        elif self.joint.sealed:
            self.raw["seals"]["tin-rings"] = {
                "shape": "O",
                "count": "2",
                "covers_bush": "yes",
                "measured_with": CALIPER,
            }
            self.raw["links"]["tin"]["seals"] = "tin-rings"
        else:
            self.raw["links"]["tin"]["seals"] = "none"

    def _seen(self, reading: Reading) -> str:
        joint, field = self.joint, reading.field
        of_joint = joint_looks(joint)
        if field == "came_with":
            return str(joint.words["link"].get("came_with", "unknown"))
        known = {**of_joint, "seal": "O" if joint.sealed else "none", "own_joint": "clip-slip" if joint.slides else "clip-press",
                 "shape": "O", "pin_kind": "unknown", "flared": "no", "made_bowed": "no", "came_with": None,
                 # a fingernail finds what is worn by a twentieth on a face
                 "worn_step": "no" if joint.clip["thickness_new"] - joint.clip["thickness"] <= 0.10 else "yes",
                 **joint.words.get(reading.kind, {})}  # fmt: skip
        value = known.get(field, "unknown")
        return self._perhaps_wrong(field, "unknown" if value is None else value)

    def _perhaps_wrong(self, field: str, value: str) -> str:
        if self.random.random() >= self.misreported:
            return value
        others = [
            word
            for word in CHOICES.get(field, ("yes", "no") if value in ("yes", "no") else ())
            if word != value
        ]
        return self.random.choice(others) if others else value

    def _dry_fit(self, act: Act, dataset: Dataset) -> None:
        felt = dry_fit(self.joint, act.between)
        trial: dict[str, Any] = {"chain": "red", "link": "tin", "on": "2027-02-20", "measured_with": CALIPER}
        if "tin-clip" in self.raw["clips"]:
            trial["clip"] = "tin-clip"
        for reading in act.ask:
            value = felt.get(reading.field, "unknown")
            if isinstance(value, float):
                trial[reading.field] = self._read(dataset, "trial", reading.field, value)
            else:
                trial[reading.field] = value
        # plans are shared between joints, and tell trials apart by their ids
        self.raw["trials"][
            f"fit-{self.joint.seed}-{len(self.raw['trials'])}-{self.misreported > 0}".lower()
        ] = trial

    def _measure(self, act: Act, dataset: Dataset) -> None:
        for reading in act.ask:
            record = self._record(reading)
            if reading.field == "elongation":
                record["elongation"] = (
                    f"{float(self.joint.words['chain']['elongation']) + self.random.uniform(-0.15, 0.15):.2f}".replace(
                        "-", ""
                    )
                )
                continue
            if reading.kind == "bike":
                record[reading.field] = self._read(dataset, "bike", reading.field, self.joint.room)
                continue
            truth = true_length(self.joint, reading)
            record[reading.field] = (
                "unknown" if truth is None else self._read(dataset, reading.kind, reading.field, truth)
            )

    def _read(self, dataset: Dataset, kind: str, field: str, truth: float) -> str:
        """The truth lies within the plus-minus of the reading, at a place that the bias of the instrument moves."""
        cost = best_at_hand(dataset, kind, field)
        if cost is None:
            return "unknown"
        at = 0.5 + 0.5 * max(-1.0, min(1.0, self.bias + self.random.uniform(-0.4, 0.4)))
        minus, plus = cost.minus / 1e6, cost.plus / 1e6
        low, high = truth - plus, truth + minus
        reading = Fraction(str(round(low + at * (high - low), 6))) * 100
        for whole in (round(reading), floor(reading), ceil(reading)):
            if low <= whole / 100 <= high:
                return f"{max(whole, 0) / 100:.2f} mm"
        return f"{max(truth, 0.0):.3f} ± {max(minus, plus, 0.001):.3f} mm"


def true_length(joint: Hidden, reading: Reading) -> float | None:
    """Of a part; what has no such length has none."""
    part = {"chain": joint.chain, "link": joint.link, "clip": joint.clip, "seal": joint.seals}[reading.kind]
    if reading.field == "over_outer_plates":
        return float(joint.chain["between_outer_plates"] + 2 * joint.chain["plate_thickness"])
    if reading.field == "clip_stop":
        return float(joint.link["pin_reach"] + joint.link["groove_width"] - joint.clip["thickness"])
    if reading.field == "bow":
        return 0.0
    found = part.get(reading.field)
    return None if found is None else float(found)


def stop_of(joint: Hidden) -> float:
    link = joint.link
    return float(
        link["pin_reach"] + link["groove_width"] - joint.clip["thickness"] - link["side_plate_thickness"]
    )


def dry_fit(joint: Hidden, between: str | None = None) -> dict[str, Any]:
    """What a hand feels, in order: it stops where something does not go.  Without a word the seals of a sealed joint
    go in."""
    between = between or ("fitted" if joint.sealed else "none")
    with_seals = between == "fitted"
    chain, link, clip = joint.chain, joint.link, joint.clip
    play = chain["bush_bore"] - link["pin_diameter"]
    if play < 0:
        return {"seals": between, "enters": "no", "plate_on": "unknown"}
    stop = stop_of(joint)
    seat = stop if joint.slides else min(chain["between_outer_plates"], stop)
    goes = (
        link["groove_width"] >= clip["thickness"]
        and stop >= chain["over_bush_ends"]
        and clip["mouth"] < link["groove_diameter"]
    )
    squeeze = 1 - (seat - chain["over_inner_plates"]) / (2 * joint.seals["thickness"]) if with_seals else 0.0
    goes = goes and squeeze < 0.45
    felt: dict[str, Any] = {
        "seals": between, "enters": "yes", "play": "no-more" if play <= 0.12 else "more",
        # nobody presses a plate home to see whether it fits: one with opened holes does
        "plate_on": "by-hand" if joint.slides else "trial-plate",
        "bends": "no" if joint.stiff or seat < chain["over_bush_ends"] or squeeze > 0.40 else "yes",
        "clip_on": "yes" if goes else "no", "plates_no_higher": _no_higher(joint),
        "plates_level": "unknown", "left_in_use": "no",
        "width_at_joint": seat + link["side_plate_thickness"] + link["fixed_plate_thickness"],
        "width_at_neighbour": chain["between_outer_plates"] + 2 * chain["plate_thickness"],
        "tip_stand_out": link["pin_length"] - link["side_plate_thickness"] - seat,
        **_beyond(joint, between, seat),
    }  # fmt: skip
    if goes:
        felt["clip_with"] = "pliers" if link["groove_diameter"] - clip["mouth"] >= 0.30 else "fingers"
        felt["plate_moves"] = (
            "yes" if joint.lost_grip or (joint.slides and seat - chain["over_bush_ends"] > 0.05) else "no"
        )
    return felt


def _beyond(joint: Hidden, between: str, seat: float) -> dict[str, float]:
    """How far it stands out beyond the riveted heads when it is pushed there; seals hold it in the middle."""
    chain, link = joint.chain, joint.link
    head = chain["over_riveted_pins"] / 2
    wide = (
        chain["between_outer_plates"] if between == "fitted" or not joint.sealed else chain["over_bush_ends"]
    )
    other = seat - wide / 2 if between != "fitted" else wide / 2
    heads = link["fixed_plate_thickness"] + link["head_stand_out"] + other - head
    return {
        "tips_beyond_heads": max(link["pin_length"] - wide / 2 - head, 0.0),
        "heads_beyond_heads": max(heads, 0.0),
    }


def _no_higher(joint: Hidden) -> str:
    return "yes" if joint.link["side_plate_height"] - joint.chain["plate_height"] <= 0.3 else "no"


def joint_looks(joint: Hidden) -> dict[str, str]:
    """Looks at the joint that is closed now."""
    fault = joint.words.get("fault")
    loose = joint.lost_grip or fault == "loose"
    return {
        "plates_level": "yes" if joint.slides or -0.10 <= joint.off <= 0.15 else "no",
        "plates_no_higher": _no_higher(joint),
        "clip_seated": "no" if fault == "clip" else "yes",
        "bends_freely": "no" if joint.stiff else "yes",
        "seals_whole": "yes",
        "plate_loose": "yes" if loose else "no",
        "rub_marks": "no",
    }
