"""What is left out is not known: in every field that can lower a verdict, found by walking the models.

Outside source: none needed; a field that is silent must be no better than any value it could have had.
"""

from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

import pytest
from pydantic.fields import FieldInfo

from generator.compute.fit.fits import fit_table
from generator.model.dataset import Dataset
from generator.model.fields import Answer, Length
from generator.model.record import Record
from generator.model.shipped import NO_GO
from tests.joints import MODELS, base_pieces, dataset_of

# parts of the joint, by the id they have in it
PARTS = {"chain": "chain", "link": "link", "clip": "clip", "seals": "seal", "bike": "bike"}
# what says which joint it is, not how good it is; and what is silent about nothing that is asked of a joint
SAYS_WHICH = {
    ("chain", "own_link"), ("chain", "own_clip"), ("chain", "in_use"), ("link", "closure"), ("link", "clip"), ("link", "seals"),
    ("clip", "for_trials"), ("link", "came_with"), ("link", "compared_with"), ("bike", "clip_missing"), ("bike", "role"),
    # whoever says nothing of an override has none
    ("bike", "clip_because"),
    # how sound it is says a look at the joint that runs, which is judged by itself
    ("chain", "plates_level"), ("chain", "clip_seated"), ("chain", "bends_freely"), ("chain", "seals_whole"),
    ("chain", "plate_loose"), ("chain", "plates_no_higher"), ("chain", "own_seals"),
    # forecasts of wear, not joints
    ("chain", "seals_seen"), ("seal", "rubber"),
}  # fmt: skip


def answers_of(info: FieldInfo) -> tuple[str, ...]:
    """The values of a closed field."""
    if (
        info.annotation is bool
        or Answer in (info.annotation, *get_args(info.annotation))
        or "yes-no" in str(info.metadata)
    ):
        return ("yes", "no")
    found = (info.annotation, *get_args(info.annotation))
    return tuple(str(v) for each in found if get_origin(each) is Literal for v in get_args(each))


def closed_fields() -> Iterator[tuple[str, str, tuple[str, ...]]]:
    for id_, kind in PARTS.items():
        model: type[Record] = MODELS[kind]
        for name, info in model.model_fields.items():
            answers = answers_of(info)
            if answers and (kind, name) not in SAYS_WHICH:
                yield id_, name, answers


def lengths() -> Iterator[tuple[str, str]]:
    for id_, piece in base_pieces().items():
        if id_ in PARTS:
            yield from ((id_, symbol) for symbol in piece.dims)


FIELDS = list(closed_fields())


def worst_of(dataset: Dataset) -> int:
    """No verdict at all is no better than no-go."""
    (fit,) = fit_table(dataset, ["chain"], ["link"])
    return NO_GO if fit.worst is None else fit.worst


def with_word(closure: str, id_: str, name: str, value: str | None) -> int:
    joint = base_pieces("sealed", "press", closure)
    words: dict[str, Any] = joint[id_].words
    if value is None:
        words.pop(name, None)
    else:
        words[name] = value
    try:
        return worst_of(dataset_of(list(joint.values())))
    except ValueError:
        return NO_GO  # a field that must be there


def test_the_models_are_walked() -> None:
    names = {(PARTS[id_], name) for id_, name, _ in FIELDS}
    assert {("link", "condition"), ("link", "half_link"), ("link", "flared"), ("clip", "history"), ("bike", "joint_in_manual"),
            ("chain", "state"), ("chain", "seal"), ("seal", "covers_bush"), ("chain", "pull_off")} <= names  # fmt: skip


@pytest.mark.parametrize(("id_", "name", "answers"), FIELDS, ids=lambda each: str(each)[:40])
def test_silence_is_no_better_than_any_answer(id_: str, name: str, answers: tuple[str, ...]) -> None:
    closure = "rivet" if name in ("flared", "pin_kind") else "clip"
    # of a new link nobody need say that it was never flared
    if name == "flared":
        answers = ("no",)
    silent = with_word(closure, id_, name, None)
    assert silent >= max(with_word(closure, id_, name, answer) for answer in answers if answer != "unknown")


@pytest.mark.parametrize(("id_", "symbol"), list(lengths()))
def test_a_length_that_nobody_read_is_not_proper(id_: str, symbol: str) -> None:
    joint = base_pieces()
    del joint[id_].dims[symbol]
    # from the rest of the joint itself, or published or stated and asked of no joint that lacks it
    # (where a plate is pressed and its seals are in, nothing hangs on the bush ends; a bow that nobody read counts as
    # the most that a clip which is not bent can have)
    known_otherwise = {
        ("chain", "b2b"),
        ("clip", "k0"),
        ("clip", "bow"),
        ("link", "f"),
        ("chain", "Fc"),
        ("link", "Fl"),
        ("bike", "clr"),
        ("bike", "clo"),
    }
    # clip and link are new out of one packet
    by_packet = {("clip", each) for each in ("cs", "cm", "csp")} | {("link", "gd")}
    if (id_, symbol) not in known_otherwise | by_packet:
        assert worst_of(dataset_of(list(joint.values()))) > 0


def test_every_length_of_the_models_is_one_of_the_joint_or_named_here() -> None:
    """A new one cannot be missed."""
    elsewhere = {
        "chain": {"pitch", "roller_diameter", "inner_width", "over_outer_plates", "seal_thickness"},
        "link": {"pin_step", "clip_stop", "pin_spacing", "hollow_depth", "shoulder_depth"},
        "clip": {"bow"},
        "seal": {"inner_diameter", "outer_diameter"},
        "bike": {
            "centre_distance",
            "adjuster_forward",
            "adjuster_back",
            "tyre_clearance",
            "slack_low",
            "slack_high",
        },
    }
    from tests.joints import NAMES

    for id_, kind in PARTS.items():
        dims = base_pieces()[id_].dims
        joint = {NAMES[kind][symbol] for symbol in dims} - {"tensile", "elongation"}
        of_model = {
            n
            for n, info in MODELS[kind].model_fields.items()
            if "'length'" in str(info.metadata) or Length in get_args(info.annotation)
        }
        assert of_model == joint | elsewhere[kind], (kind, of_model ^ (joint | elsewhere[kind]))
