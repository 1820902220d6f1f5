"""Every loose side plate on every connecting link."""

from collections.abc import Mapping
from itertools import product

from generator.compute.fit.refused import size_refused
from generator.compute.others.clip_links import link_refused
from generator.compute.others.judge import judge_meetings
from generator.compute.others.meeting import Meeting, Value, first_reason, known, met, read
from generator.compute.others.result import PartFit
from generator.compute.others.size_codes import pitch_of, relation_of
from generator.compute.others.tools import PLATE_FIT_UNKNOWN
from generator.model.chain_parts import Link, SidePlate
from generator.model.dataset import Dataset, Part
from generator.model.pin_wear import link_condition
from generator.model.reading import Reading
from generator.rules.table import rules_of

ASKED_OF_STOPPED = ("plate-size", "plate-pitch")


def plate_fits(dataset: Dataset) -> tuple[PartFit, ...]:
    pairs = product(dataset.plates.values(), dataset.links.values())
    meetings = [_meeting(dataset, plate, link) for plate, link in pairs]
    return judge_meetings(meetings, rules_of(dataset, "plate"), "plate", dataset)


def _meeting(dataset: Dataset, plate: Part[SidePlate], link: Part[Link]) -> Meeting:
    refused = _plate_refused(dataset, plate) or _fit_refused(link) or link_refused(dataset, link)
    if refused:
        return Meeting("plate", met(plate, link), refused=refused)
    values = _values(dataset, plate, link)
    size = relation_of(dataset, plate.record.size_code, link.record.size_code)
    return Meeting(
        "plate",
        met(plate, link),
        values=values,
        case={
            "closure": link.record.closure,
            "spacing": known(values["hs"]),
            "heights": known(values["h"], values["h2"]),
        },
        words={
            "plate-size": size,
            "plate-condition": plate.record.condition,
            "origin": _origin(plate, link),
            "plate-fit": _fit_word(plate.record.plate_fit, link.record.plate_fit),
            "condition": link_condition(link, dataset.shelf),
        },
        asks={
            "origin": Reading("plate", plate.id, "from_link"),
            "condition": Reading("link", link.id, "pin_step"),
        },
        stopped_by=ASKED_OF_STOPPED if size == "other-pitch" else (),
    )


def _plate_refused(dataset: Dataset, plate: Part[SidePlate]) -> str | None:
    record = plate.record
    return size_refused(dataset, record.size_code, "plate") or first_reason(
        (
            (record.plate_fit == "unknown", "it is not known whether the plate slides on or needs a press"),
            (record.condition == "unknown", "the condition of the plate is not known"),
            (record.condition == "modified", "the plate was modified"),
        )
    )


def _fit_refused(link: Part[Link]) -> str | None:
    return PLATE_FIT_UNKNOWN if link.record.plate_fit == "unknown" else None


def _values(dataset: Dataset, plate: Part[SidePlate], link: Part[Link]) -> Mapping[str, Value]:
    return {
        "t": read(plate, "thickness"),
        "h": read(plate, "height"),
        "hs": read(plate, "hole_spacing"),
        "p": pitch_of(dataset, plate.record.size_code),
        "tc": read(link, "side_plate_thickness"),
        "h2": read(link, "side_plate_height"),
        "pl": pitch_of(dataset, link.record.size_code),
    }


def _origin(plate: Part[SidePlate], link: Part[Link]) -> str:
    if plate.record.from_link is None:
        return "unknown"
    return "own" if plate.record.from_link == link.id else "other"


def _fit_word(of_plate: str, of_link: str) -> str:
    if of_plate == of_link:
        return "same"
    if of_plate == "slip":
        return "slides"
    return "needs-press" if of_link == "slip" else "other-stop"
