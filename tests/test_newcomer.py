"""What stopped somebody who entered a club of one caliper for the first time, and must not stop the next one."""

from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from typing import Any

import pytest

from generator.compute.all_fits import all_fits
from generator.compute.fit.result import PairFit
from generator.compute.next_act import next_act, out_of_reach
from generator.load.problem_texts import load_catalogue
from generator.model.dataset import Dataset
from generator.model.reading import Reading
from generator.render.explain_text import explain_text
from generator.render.pages.book import book_of
from generator.render.pages.pair import panels_of
from generator.render.say.names import PART_WORDS, reading_name
from generator.validate.dataset import build_dataset
from tests.clubs import DATA, checked, loaded, shelf_files
from tests.small_club import SMALL_CLUB

# as people write it first: a link out of a packet, nothing known of it but what is printed there
PACKET = {"size_code": "520", "closure": "clip", "plate_fit": "slip", "made_for": "plain", "clip": "new-clip"}
READ = {"measured_with": "caliper", "pin_diameter": "5.22 mm", "clip_stop": "13.20 mm", "came_with": "none",
        "pin_length": "15.12 mm", "side_plate_thickness": "2.00 mm", "side_plate_height": "15.00 mm"}  # fmt: skip


CHAIN_READ = {"measured_with": "caliper", "over_inner_plates": "10.60 mm", "over_bush_ends": "10.61 mm", "bush_bore": "5.27 mm",
              "over_outer_plates": "15.01 mm", "over_riveted_pins": "17.31 mm", "plate_thickness": "2.00 mm"}  # fmt: skip
CLIP_READ = {"history": "off-once", "made_bowed": "no", "measured_with": "caliper", "thickness": "1.00 mm",
             "thickness_new": "1.00 mm", "seat_width": "3.90 mm", "mouth": "3.35 mm", "pin_spacing": "15.88 mm"}  # fmt: skip


@cache
def club(**link: str) -> Dataset:
    raw: dict[str, Any] = deepcopy(SMALL_CLUB)
    raw["links"]["packet"] = {**PACKET, **link}
    raw["clips"] = {"new-clip": {"history": "new"}, "bob-clip": {"history": "never-off"}}
    raw["links"]["bob-link"]["clip"] = "bob-clip"
    return checked(raw)


def pairs(dataset: Dataset) -> dict[tuple[str, str], PairFit]:
    return {(fit.chain, fit.link): fit for fit in all_fits(dataset).pairs}


def lines(dataset: Dataset, fit: PairFit) -> list[str]:
    return explain_text(dataset, fit, next_act(dataset, fit)).splitlines()


def told(dataset: Dataset, fit: PairFit) -> str:
    return " ".join(" ".join(lines(dataset, fit)).split())


def items(said: list[str]) -> Iterator[str]:
    """The sentences behind a dash, each as one line."""
    for at, line in enumerate(said):
        if line[12:14] == "- ":
            rest = said[at + 1 :]
            more = next((n for n, each in enumerate(rest) if each[:14].strip()), len(rest))
            yield " ".join([line[14:], *(each.strip() for each in rest[:more])])


def test_no_sentence_of_an_answer_stands_twice() -> None:
    dataset = club()
    for fit in pairs(dataset).values():
        said = lines(dataset, fit)
        found = list(items(said))
        assert len(found) == len(set(found)), found
        assert told(dataset, fit).casefold().count("not tested: could be") <= 1


def test_a_part_without_a_name_is_called_by_its_label_once() -> None:
    said = told(club(), pairs(club())["bob", "packet"])
    assert "packet: packet" not in said and "bob: bob" not in said and "new-clip (new-clip)" not in said


def test_the_clip_on_its_own_link_is_not_said_to_sit_on_another() -> None:
    raw: dict[str, Any] = deepcopy(SMALL_CLUB)
    raw["clips"] = {"bob-clip": {"history": "never-off"}}
    raw["links"]["bob-link"]["clip"] = "bob-clip"
    dataset = checked(raw)
    fit = pairs(dataset)["bob", "bob-link"]
    assert fit.option is not None
    assert [c.category for c in fit.option.checks if c.id == "clip-history"] == ["taken-off"]
    assert "another link" not in told(dataset, fit)


def test_a_dimension_does_not_say_twice_whose_it_is() -> None:
    dataset = club()
    for recipe in dataset.shelf.recipes.values():
        for kind, _, field in (name.partition(".") for name in recipe.fields):
            if kind not in PART_WORDS:  # a line of the wear log
                continue
            name = reading_name(dataset, Reading(kind, "x-1", field))
            assert name.endswith(f" of {PART_WORDS[kind]} x-1")
            assert (
                f"of the {PART_WORDS[kind]} of" not in name and f"of a {PART_WORDS[kind]} of" not in name
            ), name


def test_a_question_says_what_may_be_written_and_where() -> None:
    dataset = club()
    said = told(dataset, pairs(dataset)["bob", "packet"])
    assert "[half_link: yes / no]" in said
    assert "[condition: new / fitted-once / fitted-twice / cracked / drilled / worn / modified]" in said
    assert "Write it down: link packet in links.yaml" in said


def test_a_manual_is_asked_for_by_its_bike() -> None:
    raw: dict[str, Any] = deepcopy(SMALL_CLUB)
    del raw["bikes"]["b2"]["joint_in_manual"]
    raw["bikes"]["b5"] = dict(raw["bikes"]["b2"])
    raw["links"]["packet"] = PACKET | {"condition": "new", "half_link": "no", "clip": "unknown"}
    dataset = checked(raw)
    said = told(dataset, pairs(dataset)["bob", "packet"])
    for bike in ("b2", "b5"):
        assert f"Bike {bike}: which kind of joint does its manual ask for?" in said


def test_where_no_instrument_of_the_club_helps_the_one_that_would_is_named() -> None:
    raw: dict[str, Any] = deepcopy(SMALL_CLUB)
    raw["links"]["bob-link"] |= READ | {
        "groove_diameter": "3.95 mm",
        "came_with": "bob",
        "head_stand_out": "1.12 mm",
        "fixed_plate_thickness": "2.00 mm",
    }
    raw["clips"] = {"bob-clip": CLIP_READ}
    raw["links"]["bob-link"]["clip"] = "bob-clip"
    raw["chains"]["bob"] |= CHAIN_READ | {"in_use": "no", "plate_height": "15.01 mm"}
    raw["bikes"]["b2"] |= {"clearance_clip_side": "5.2 mm", "clearance_other_side": "5.2 mm"}
    raw["trials"]["whole"] = {
        **raw["trials"]["try-bob"],
        "link": "bob-link",
        "clip": "bob-clip",
        "plate_moves": "yes",
    }
    dataset = checked(raw)
    fit = pairs(dataset)["bob", "bob-link"]
    assert next_act(dataset, fit) is None and fit.best != fit.worst
    assert out_of_reach(dataset, fit) == {"feeler-gauge": (Reading("link", "bob-link", "groove_width"),)}
    closer = "With feeler gauges (feeler-gauge in club.yaml) it could read the groove width of link bob-link."
    assert f"do next Nothing the club can do tells it closer. {closer}" in told(dataset, fit)
    book = book_of(dataset, all_fits(dataset), load_catalogue(DATA))
    assert panels_of(book, fit, stands=True)[0].says.endswith(closer)
    raw["club"]["instruments"]["leaves"] = {"kind": "feeler-gauge"}
    owned = checked(raw)
    assert not out_of_reach(owned, pairs(owned)["bob", "bob-link"])


@pytest.mark.parametrize(
    ("link", "step"),
    [
        ({"condition": "unknown", "half_link": "no"}, "Find it out, write it into the club's file"),
        ({"condition": "modified"}, "let someone who knows chains look at it"),
    ],
)
def test_a_pair_that_nobody_can_judge_says_what_is_to_be_done(link: dict[str, str], step: str) -> None:
    dataset = club(**link)
    fit = pairs(dataset)["bob", "packet"]
    assert fit.refused is not None
    act = next_act(dataset, fit)
    said = " ".join(explain_text(dataset, fit, act).split())
    assert "do next" in said and (act is not None or step in said)


def test_what_a_dry_fit_leaves_out_is_named_as_people_list_things() -> None:
    raw: dict[str, Any] = deepcopy(SMALL_CLUB)
    raw["trials"] = {"half": {"chain": "bob", "link": "spare-bob", "on": "2027-02-20"}}
    _, problems = build_dataset(loaded(raw), shelf_files())
    (silent,) = [problem.message for problem in problems if problem.code == "T509"]
    assert silent == "the trial does not say enters, clip_on and bends"
