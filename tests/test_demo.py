"""The demo club shows everything: each rung, each deciding check, and the worked rows of the measuring paper.

Writes build/coverage-demo.json (rung x deciding check x count) as a by-product.
"""

import json
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from generator.compute.fit.fits import explain_pair, fit_table
from generator.compute.fit.result import PairFit
from generator.load.folder import load_club, load_shelf
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.validate.dataset import build_dataset
from tests.engine import every_option
from tests.never_kinder import CASES, club

ROOT = Path(__file__).resolve().parent.parent
# a screw link comes with its own plate, so in a joint of chain and link this check never decides;
# it does where another plate is tried on it (plates x links); washers that do not fit make a no-go,
# and among options that are all no-go the one without washers is named
NEVER_DECIDES_A_JOINT = {"screw-plate", "packing-room"}


@pytest.fixture(scope="module")
def demo() -> Dataset:
    dataset, problems = build_dataset(load_club(ROOT / "data" / "demo"), load_shelf(ROOT / "data"))
    assert dataset is not None, [problem.message for problem in problems]
    return dataset


@pytest.fixture(scope="module")
def fits(demo: Dataset) -> tuple[PairFit, ...]:
    return fit_table(demo)


def test_every_rung_occurs(fits: tuple[PairFit, ...]) -> None:
    counts = Counter((fit.word, fit.option.deciding if fit.option else "refused") for fit in fits)
    rows = [{"rung": rung, "deciding": check, "count": n} for (rung, check), n in sorted(counts.items())]
    target = ROOT / "build" / "coverage-demo.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(json.dumps({"pairs": len(fits), "coverage": rows}, indent=1) + "\n", encoding="utf-8")
    assert {row["rung"] for row in rows} == {*RUNGS, "measure-first", "cannot-judge"}


def test_every_check_decides_some_pair(demo: Dataset, fits: tuple[PairFit, ...]) -> None:
    """Of the demo; what a club seldom meets holds back some way to join one, there or in a case worked by hand."""
    every_check = {rule.check or id_ for id_, rule in demo.shelf.joint_rules.items()}
    seldom = every_check - {fit.option.deciding for fit in fits if fit.option} - NEVER_DECIDES_A_JOINT
    assert len(seldom) * 4 <= len(every_check)
    clubs = [demo, *(club(id_) for id_, case in CASES.items() if case.get("check") in seldom)]
    # of the demo's joints those of a link that is short of its groove: a washer under the clip takes that up
    ways = [
        told.fit
        for each in clubs
        for told in every_option(each, links=["tin-16-far"] if each is demo else None)
    ]
    holds = {check.id for way in ways for check in way.checks if check.worst == way.worst > 0}
    assert seldom <= holds


def test_the_demo_is_large_enough(demo: Dataset) -> None:
    asked = {"bikes": 14, "chains": 9, "links": 26, "clips": 14, "seals": 6, "strips": 4, "tools": 10}
    assert {kind: len(getattr(demo, kind)) >= least for kind, least in asked.items()} == dict.fromkeys(
        asked, True
    )
    assert len(demo.club.instruments) >= 2
    assert demo.club.invented


# source: the table at the end of the measuring paper, common practice; (chain, link, clip, verdict)
WORKED = [
    ("blue-520", "tin-1-blue", "clip-blue-new", "proper"),
    ("blue-520", "tin-1-blue", "clip-blue-off", "get-home"),
    ("blue-520", "tin-1-short", "clip-blue-new", "no-go"),
    ("blue-520", "tin-1-slip", "clip-blue-full", "get-home"),
    ("blue-520", "tin-2-long", "clip-blue-new", "no-go"),
    ("blue-520", "tin-2-step", "clip-blue-new", "proper"),
    ("blue-520", "tin-2-far-step", "clip-blue-new", "no-go"),
    ("grey-520", "tin-1-blue", "clip-blue-new", "get-home"),
    ("blue-520", "tin-3-red", "clip-grey-new", "get-home"),
    ("blue-520", "tin-3-pink", "clip-grey-new", "no-go"),
    ("blue-520", "tin-3-thin", "clip-blue-new", "get-home"),
    ("grey-520", "tin-1-grey", "clip-grey-new", "proper"),
    ("black-525", "tin-1-blue", "clip-blue-new", "no-go"),
]


@pytest.mark.parametrize(("chain", "link", "clip", "verdict"), WORKED)
def test_worked_rows_hold_through_their_intervals(
    demo: Dataset, chain: str, link: str, clip: str, verdict: str
) -> None:
    options = [option for option in explain_pair(demo, chain, link)[1] if option.clip == clip]
    best = options[0]
    assert (RUNGS[best.best], RUNGS[best.worst]) == (verdict, verdict), best.deciding


def test_explain_is_the_element_of_the_table(demo: Dataset, fits: tuple[PairFit, ...]) -> None:
    for fit in fits[:: len(fits) // 40]:
        assert explain_pair(demo, fit.chain, fit.link)[0] == fit


def test_a_pressed_plate_that_moves_by_hand_is_never_proper(demo: Dataset) -> None:
    """Common practice, no source: the press fit is what holds the plate when the clip goes."""
    pair = ("blue-520", "tin-1-blue")
    trials = {
        id_: replace(trial, record=trial.record.model_copy(update={"plate_moves": True}))
        if (trial.record.chain, trial.record.link) == pair
        else trial
        for id_, trial in demo.trials.items()
    }
    assert explain_pair(demo, *pair)[0].word == "proper"
    fit, options = explain_pair(replace(demo, trials=trials), *pair)
    # what holds pin and plate together is the same with any clip and any seals
    ways = {(each.clip, each.seals, each.seal_set, each.seat, each.spacer) for each in options if each.trials}
    assert len(ways) == len(options) > 1
    assert {(option.best, option.went_together) for option in options} == {(3, False)}
    assert fit.word == "no-go"
