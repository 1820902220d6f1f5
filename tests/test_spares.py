"""Who carries what: against trying every load, proofs that can fail, every piece needed, clubs at the edge of what is asked.

Outside sources: an exhaustive search over all loads; a checker that shares nothing with the generator (recheck_plan.py).
"""

import json
from dataclasses import replace
from functools import cache
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from generator.cli import main
from generator.compute.all_fits import all_fits
from generator.compute.others.table import other_fits
from generator.compute.repair.bench import RepairBench
from generator.compute.repair.planner import repairs_of
from generator.compute.repair.result import Case
from generator.compute.spares.age import age_of, clip_age_of
from generator.compute.spares.planner import plan_of
from generator.compute.spares.problem import NOT_SERVED, ideal_levels, levels_of, sure, with_musts
from generator.compute.spares.prove import proven, recount
from generator.compute.spares.result import Plan
from generator.compute.spares.solve import Solution
from generator.model.dataset import Dataset
from generator.render.contract.envelope import json_text
from generator.render.contract.fits_json import pair_json
from generator.render.contract.plan_json import plan_document
from generator.render.plan_text import plan_text
from tests.bench.spares import club_problem
from tests.clubs import DATA, write
from tests.handbook import demo, demo_all
from tests.recheck_plan import Club, faults
from tests.small_club import SMALL_CLUB
from tests.spares_models import by_trying, random_problem

RIDES: tuple[str | None, ...] = (None, *demo().rides)


def values(problem_seed: int, **sizes: int) -> tuple[tuple[int, ...], bool]:
    found = proven(random_problem(problem_seed, **sizes))
    return tuple(value for _, value, _ in found.proof.goals), found.proof.rechecked


# with a van there are so many loads that every fourth such model is enough
TRIED = [
    seed for seed in range(40) if len(random_problem(seed, items=5, demands=4).pools) == 1 or seed % 4 == 0
]


@pytest.mark.parametrize("seed", TRIED)
def test_the_plan_is_the_best_of_all_loads(seed: int) -> None:
    problem = random_problem(seed, items=5, demands=4)
    assert values(seed, items=5, demands=4) == (by_trying(problem), True)


@pytest.mark.long
def test_a_thousand_random_models() -> None:
    """Every one proven, and the smaller ones tried load by load."""
    wrong = []
    for seed in range(1000, 2000):
        problem = random_problem(seed, items=4, demands=5)
        found, rechecked = values(seed, items=4, demands=5)
        if not rechecked or found != by_trying(problem):
            wrong.append(seed)
    assert wrong == []


@pytest.mark.parametrize("seed", range(12))
def test_failures_at_once_share_nothing(seed: int) -> None:
    """Two at a time never cost less or mend more than one at a time."""
    problem = random_problem(seed, items=5, demands=4)
    one, two = proven(problem), proven(replace(problem, depth=2))
    assert two.proof.rechecked
    assert [value for _, value, _ in two.proof.goals[:3]] >= [value for _, value, _ in one.proof.goals[:3]]


def test_a_wrong_load_is_not_counted_as_proven() -> None:
    """The recount refuses a limit that is broken, and sees a demand that is not served."""
    problem = random_problem(3)
    found = proven(problem)
    too_much = tuple(tuple(99 for _ in row) for row in found.amounts)
    assert recount(problem, Solution((), too_much)) is None
    nothing = tuple(tuple(0 for _ in row) for row in found.amounts)
    assert recount(problem, Solution((), nothing)) != tuple(value for _, value, _ in found.proof.goals)
    assert set(levels_of(problem, nothing)) == {12}


@pytest.mark.parametrize("seed", range(60))
def test_asking_for_the_best_in_fewer_words_asks_the_same(seed: int) -> None:
    """Every load that serves the shortened question serves each demand at its ideal level, and the other way round."""
    problem = random_problem(seed, items=5, demands=5)
    levels = ideal_levels(problem)
    short = with_musts(problem, levels, (True,) * len(problem.demands))
    for flat in product(*(range(most + 1) for most in problem.most)):
        amounts = (flat, *((0,) * len(flat) for _ in problem.pools[1:]))
        ideal = levels_of(problem, amounts) == levels
        assert ideal == all(level == 0 for level in levels_of(short, amounts))


def test_a_demand_said_to_be_sure_is_at_its_best_in_the_best_load() -> None:
    surely = 0
    for seed in range(80):
        problem = random_problem(seed, items=5, demands=4)
        levels = ideal_levels(problem)
        reached = levels_of(problem, proven(problem).amounts)
        for at, must in enumerate(sure(problem, levels)):
            assert not must or reached[at] == levels[at]
            surely += must and levels[at] < NOT_SERVED
    assert surely > 20


@pytest.mark.long
def test_a_starved_club_has_a_plan() -> None:
    """With tighter tolerances the solver said of this one that it had none."""
    assert proven(club_problem(6, rider=60)).proof.rechecked


@cache
def plan(ride: str | None) -> Plan:
    plans = demo_all().plans
    return plans.club if ride is None else plans.rides[ride]


@cache
def document(ride: str | None) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(json_text(plan_document(demo(), plan(ride))))
    return found


@cache
def published() -> dict[str, Any]:
    apart = demo_all().apart
    return {
        f"{fit.chain}/{fit.link}": pair_json(fit, apart.get((fit.chain, fit.link), ()))
        for fit in demo_all().pairs
    }


@pytest.mark.parametrize("ride", RIDES)
def test_a_checker_that_shares_nothing_agrees(ride: str | None) -> None:
    assert list(faults(document(ride), Club(DATA / "demo"), published())) == []


@pytest.mark.parametrize(
    ("spoil", "complaint"),
    [
        (lambda found: found["bearers"][0]["items"][0].update(count=99), "are carried"),
        (lambda found: found["demands"][0].update(weight=1), "weight"),
        (lambda found: found["proof"]["goals"][0].update(value=1), "goal worse-than-last-resort"),
        (lambda found: found["proof"]["goals"][4].update(bound=1), "bound"),
        (lambda found: found["proof"].update(rechecked=False), "not proven"),
        (lambda found: found["bearers"][0].update(mass_g=1), "carries"),
    ],
)
def test_that_checker_sees_a_plan_that_was_spoiled(spoil: Any, complaint: str) -> None:
    found = json.loads(json.dumps(document("river-ride")))
    spoil(found)
    assert any(complaint in fault for fault in faults(found, Club(DATA / "demo"), published()))


@pytest.mark.parametrize("ride", RIDES)
def test_without_any_one_piece_less_is_mended_or_worse_or_a_tool_lacks_its_key(ride: str | None) -> None:
    """Of what is carried, not of stock: each piece is taken out in turn."""
    from generator.compute.spares.bearers import bearers_of
    from generator.compute.spares.catalogue import Catalogue
    from generator.compute.spares.demands import asked_of
    from generator.compute.spares.planner import _Draft, _van_reaches

    dataset, record = demo(), demo().rides[ride] if ride else None
    catalogue = Catalogue(dataset, buying=record is None)
    van = _van_reaches(record)
    cases = [
        case for (bike, _), case in demo_all().repairs.items() if bike in plan(ride).bikes and case.happens
    ]
    cases.sort(key=lambda case: plan(ride).bikes.index(case.bike))
    draft = _Draft(dataset, catalogue, asked_of(cases, catalogue, van), bearers_of(dataset, record), van, 1)
    _, found, problem = draft._loaded()
    whole = recount(problem, Solution((), found.amounts))
    assert whole is not None
    for p, row in enumerate(found.amounts):
        for item in (at for at, n in enumerate(row) if n):
            less = [list(each) for each in found.amounts]
            less[p][item] -= 1
            goals = recount(problem, Solution((), tuple(map(tuple, less))))
            assert goals is None or goals[:4] > whole[:4]


@pytest.mark.parametrize("ride", RIDES)
def test_every_demand_is_served_or_says_why(ride: str | None) -> None:
    found = plan(ride)
    assert found.proof.rechecked
    cases = demo_all().repairs
    told = {(each.bike, each.failure) for each in found.demands}
    assert told == {key for key, case in cases.items() if key[0] in found.bikes and case.happens}
    assert all(each.served or each.reason is not None for each in found.demands)
    assert all(each.rung >= cases[each.bike, each.failure].rung for each in found.demands)


def test_the_van_serves_only_the_bikes_it_reaches() -> None:
    found = plan("long-loop")
    in_van = {
        (item.kind, item.id) for load in found.loads if load.bearer.kind == "van" for item in load.items
    }
    on_bikes = {
        (item.kind, item.id) for load in found.loads if load.bearer.kind != "van" for item in load.items
    }
    reached = set(demo().rides["long-loop"].van_reaches)
    assert in_van - on_bikes
    for each in found.demands:
        if each.bike not in reached:
            assert not {take[:2] for take in each.takes} & (in_van - on_bikes)


def of_club(dataset: Dataset, bikes: tuple[str, ...] | None = None) -> Plan:
    return plan_of(dataset, all_fits(dataset).repairs, bikes=bikes)


def demo_with(**parts: Any) -> Dataset:
    return replace(demo(), rides={}, **parts)


def test_a_club_without_tools_still_has_a_plan() -> None:
    found = of_club(demo_with(tools={}), ("b03",))
    assert found.proof.rechecked
    assert {item.kind for load in found.loads for item in load.items} <= {
        "link",
        "clip",
        "seal",
        "plate",
        "strip",
    }
    assert any(not each.served for each in found.demands)


def test_a_club_with_nothing_at_all_carries_nothing_and_says_why() -> None:
    bare = demo_with(tools={}, strips={}, plates={}, clips={}, seals={}, links={}, trials={})
    chains = {
        id_: replace(c, record=c.record.model_copy(update={"own_link": None}))
        for id_, c in bare.chains.items()
    }
    found = of_club(replace(bare, chains=chains), ("b03", "b10"))
    assert found.proof.rechecked and found.mass == 0
    assert all(each.reason is not None for each in found.demands if not each.served)


def test_limits_too_low_for_anything_leave_what_weighs_most_uncovered() -> None:
    light = {
        id_: replace(
            bike,
            dims={
                **bike.dims,
                "carries": replace(bike.dims["tyre_clearance"], low=20_000, nominal=20_000, high=20_000),
            },
        )
        for id_, bike in demo().bikes.items()
        if "tyre_clearance" in bike.dims
    }
    dataset = demo_with(bikes={**demo().bikes, **light})
    found = plan_of(dataset, demo_all().repairs, bikes=("b03", "b04"))
    assert found.proof.rechecked
    assert all(load.mass <= load.bearer.limit for load in found.loads)
    assert "S011" in {each.reason.code for each in found.demands if each.reason is not None}


def test_one_bike_is_a_plan_too() -> None:
    found = plan_of(demo(), demo_all().repairs, bikes=("b10",))
    assert found.proof.rechecked and found.bikes == ("b10",)


def test_forty_bikes_are_a_plan_too() -> None:
    """The bikes of the demo over again, under other labels."""
    bikes, repairs = {}, dict[tuple[str, str], Case]()
    for number in range(40):
        like = sorted(demo().bikes)[number % len(demo().bikes)]
        id_ = f"copy-{number:02}"
        bikes[id_] = replace(demo().bikes[like], id=id_)
        repairs |= {
            (id_, failure): replace(case, bike=id_)
            for (bike, failure), case in demo_all().repairs.items()
            if bike == like
        }
    found = plan_of(demo_with(bikes=bikes), repairs)
    assert found.proof.rechecked and len({each.bike for each in found.demands}) == 40
    assert all(load.mass <= load.bearer.limit for load in found.loads)


def test_the_same_club_gives_the_same_bytes() -> None:
    again = plan_of(demo(), demo_all().repairs, "river-ride")
    assert json_text(plan_document(demo(), again)) == json_text(plan_document(demo(), plan("river-ride")))


def test_rings_age_by_the_groups_of_the_standard() -> None:
    """ISO 2230, from memory: nitrile keeps 7 years, and 3 more after a look."""
    seal = demo().seals["oring-blue"]

    def dated(year: int) -> str | None:
        made = demo().as_of.replace(year=year)
        aged = replace(seal, record=seal.record.model_copy(update={"made_on": made, "rubber": "nitrile"}))
        return age_of(demo(), aged)

    year = demo().as_of.year
    assert [dated(year - 6), dated(year - 7), dated(year - 9), dated(year - 10)] == [
        None,
        "look",
        "look",
        "too-old",
    ]


def test_clips_are_looked_at_for_rust_after_five_years_and_never_thrown_away_by_the_calendar() -> None:
    """Common practice, no source."""
    clip = demo().clips["clip-blue-new"]

    def bought(years: int) -> str | None:
        day = demo().as_of.replace(year=demo().as_of.year - years)
        return clip_age_of(demo(), replace(clip, record=clip.record.model_copy(update={"bought_on": day})))

    assert [bought(years) for years in (4, 5, 20)] == [None, "look-for-rust", "look-for-rust"]
    assert (
        clip_age_of(demo(), replace(clip, record=clip.record.model_copy(update={"bought_on": None}))) is None
    )


@pytest.mark.long
def test_what_is_next_most_useful_does_what_it_says() -> None:
    """The first strips and chains that nobody keeps: once they are there, all that they were said to mend is mended."""
    every = [each for each in plan(None).next_items if each.pitches]
    new = [each for long in (True, False) for each in [one for one in every if (one.pitches > 5) is long][:2]]
    strip, strips = demo().strips["strip-blue-3"], {}
    for each in new:
        chain = demo().chains[each.id]
        made = {
            "size_code": chain.record.size_code,
            "kind": chain.record.kind,
            "seal": chain.record.seal,
            "cut_from": each.id,
            "ridden_since": False,
            "elongation": chain.record.elongation,
            "pitches": each.pitches,
        }
        id_ = f"new-{each.id}-{each.pitches}"
        strips[id_] = replace(strip, id=id_, record=strip.record.model_copy(update=made), dims=chain.dims)
    more = demo_with(strips=strips)
    # joints of chains and links are those of the demo, whatever strips there are
    known = demo_all()
    repairs = repairs_of(RepairBench(more, known.by_bike, known.ways, other_fits(more), known.wear))
    assert {key for each in new for key in each.mends if not repairs[key].repairs} == set()


def test_one_more_of_what_runs_out_lifts_what_it_says() -> None:
    lifted = 0
    for ride in RIDES:
        for each in plan(ride).next_items:
            if each.betters and not each.pitches:
                part = getattr(demo(), f"{each.kind}s")[each.id]
                more = replace(part, record=part.record.model_copy(update={"count": part.record.count + 1}))
                dataset = demo_with(**{f"{each.kind}s": {**getattr(demo(), f"{each.kind}s"), each.id: more}})
                again = plan_of(replace(dataset, rides=demo().rides), demo_all().repairs, ride)
                rungs = {(one.bike, one.failure): one.rung for one in plan(ride).demands}
                better = {(o.bike, o.failure) for o in again.demands if o.rung < rungs[o.bike, o.failure]}
                assert {*each.mends, *each.betters} <= better
                lifted += 1
    assert lifted


def test_the_trades_kit_is_compared() -> None:
    kit = plan("river-ride").kit
    assert kit is not None and kit.mass > 0
    assert all(with_kit > with_plan for _, _, with_kit, with_plan in kit.worse)


def test_text_names_every_load_and_what_is_not_mended() -> None:
    text = plan_text(demo(), plan("river-ride"))
    for load in plan("river-ride").loads:
        assert all(item.id in text for item in load.items)
    assert "Not mended with what is carried" in text and "proven and checked again" in text
    assert max(map(len, text.splitlines())) <= 80


@pytest.mark.parametrize("terminal", [True, False])
def test_a_long_plan_tells_a_terminal_how_far_it_is(
    terminal: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A line for each goal that is found and proven, once somebody would wonder; nothing into a pipe."""
    monkeypatch.setattr("sys.stderr.isatty", lambda: terminal)
    monkeypatch.setattr("generator.cli.plan.PATIENCE", -1.0)
    assert main(["plan", "--club", str(write(SMALL_CLUB, tmp_path / "club")), "--bikes", "b1"]) == 0
    said = capsys.readouterr()
    told = [line.split(":")[0] for line in said.err.splitlines() if " of 8: " in line]
    steps = [f"{doing} {goal} of 8" for doing in ("finding", "proving") for goal in range(1, 9)]
    # what cannot all be had is looked for once more, with less asked
    assert list(dict.fromkeys(told)) == (steps if terminal else [])
    assert "of 8: " not in said.out and "b1" in said.out
