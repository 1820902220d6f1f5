"""The repair table of the trade, row by row, against what the planner makes of the demo's bikes and of clubs of its own.

Outside source: the compiled repair table and counting rules of the trade (common practice, no source): what comes out, what
goes in, which tools, how the length changes.  Each row says which failure stands for it.
"""

from dataclasses import dataclass
from functools import cache

import pytest

from generator.compute.all_fits import all_fits
from generator.compute.repair.counting import PITCHES_OUT
from generator.compute.repair.result import Case, Repair, Repairs
from generator.compute.repair.verdict import loop_limits, lowered
from generator.model.mending import Failure
from generator.model.shipped import GET_HOME, LAST_RESORT, NO_GO, PROPER
from tests.clubs import Raw, checked
from tests.handbook import demo, demo_all

FAILURES = demo().shelf.mending.failures


@dataclass(frozen=True)
class TableRow:
    """A row of the trade's table: `out` pitches come out (0: none), `changes` may the loop make, `tools` it names."""

    failure: str
    out: int
    changes: tuple[int, ...]
    ways: tuple[str, ...]
    tools: tuple[str, ...]
    at_best: int = PROPER


ROWS = {
    "1 clip lost, press-fit plate": TableRow("clip-lost", 0, (0,), ("new-clip", "wire-grooves", "crimp-washers"), ("pliers",)),
    "2 clip lost, slip-fit plate": TableRow("clip-lost", 0, (0,), ("new-clip", "wire-grooves", "crimp-washers"), ("pliers",)),
    "3 clip and plate lost": TableRow("clip-and-plate-lost", 0, (0,), ("side-plate",), ("press", "pliers")),
    "4 whole link lost": TableRow("connecting-link-lost", 1, (0,), ("one-link",), ("press", "pliers")),
    "5 clip will not enter": TableRow("clip-will-not-enter", 0, (0,), ("press-home", "press-to-the-clip", "new-clip"), ("press",)),
    "6 outer plate broken": TableRow("outer-plate-broken", 1, (0,), ("outer-for-link", "one-plate"), ("open", "press", "pliers")),
    "7 roller broken": TableRow("roller-broken", 3, (0, -2, 2), ("strip-between", "shorter-by-link", "roll-home"), ()),
    "8 inner link broken": TableRow("inner-link-broken", 3, (0, -2, 2), ("strip-between", "shorter-by-link"), ("open", "press")),
    "9 outer-inner-outer": TableRow("three-outer-inner-outer", 3, (0, -2, 2), ("strip-between", "shorter-by-link"), ("open", "press")),
    "10 inner-outer-inner": TableRow("three-inner-outer-inner", 5, (0, -2, -4, 2), ("strip-between", "shorter-by-link"), ("open", "press")),
    "11 too tight after pressing": TableRow("joint-stiff", 0, (0,), ("ease-plate",), ("press",), GET_HOME),
    "12 seal missing": TableRow("joint-seal-lost", 0, (0,), ("new-seals", "oil-the-joint"), ("press",)),
    "13 chain off": TableRow("chain-off", 0, (0,), ("lay-on",), ("spanner",)),
    "14 chain wrapped": TableRow("chain-wrapped", 0, (0,), ("free-wrap",), ("spanner",), GET_HOME),
    "15 clip rubbed thin": TableRow("clip-rubbed", 0, (0,), ("new-clip",), ("pliers",)),
    "16 seized link": TableRow("link-seized", 3, (0, -2, 2), ("work-it-loose", "strip-between", "shorter-by-link"), ()),
    "17 adjuster broken": TableRow("adjuster-broken", 0, (0,), ("block-the-slot",), ("ties", "spanner"), GET_HOME),
    "18 sprocket bolts lost": TableRow("sprocket-bolts-lost", 0, (0,), ("share-bolts",), ("spanner",), GET_HOME),
    "19 rivet link lost its plate": TableRow("rivet-plate-lost", 1, (0,), ("outer-for-link",), ("open",)),
}  # fmt: skip
# the kinds added to the trade's table, and what one of their ways must be
ADDED = {
    "clip-lost-twice": "new-clip", "clip-backwards": "turn-clip", "plate-creeping": "one-link", "over-pressed": "new-seals",
    "pin-head-ground": "outer-for-link", "bush-cracked-at-joint": "strip-between", "chain-gone": "whole-chain",
    "guide-bent": "bend-guide", "cut-too-short": "strip-between", "breaker-tip-broken": "spare-tip",
}  # fmt: skip


def cases(failure: str) -> list[Case]:
    return [case for (_, of), case in demo_all().repairs.items() if of == failure and case.happens]


def repairs(failure: str) -> list[Repair]:
    return [repair for case in cases(failure) for repair in (*case.repairs, *case.untested)]


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_a_row_of_the_trades_table(row: TableRow) -> None:
    failure: Failure = FAILURES[row.failure]
    assert PITCHES_OUT.get(failure.damage, 0) == row.out
    assert set(row.ways) <= set(failure.ways)
    found = repairs(row.failure)
    assert {repair.way for repair in found} & set(row.ways), (
        "none of its ways is open on any bike of the demo"
    )
    for repair in found:
        assert repair.range.counts >= row.at_best
        if repair.way in row.ways:
            assert repair.change in row.changes
    does = {job.does for repair in found if repair.way in row.ways for job in repair.jobs}
    assert set(row.tools) <= does


@pytest.mark.parametrize(("failure", "way"), ADDED.items())
def test_a_failure_that_the_trades_table_does_not_have(failure: str, way: str) -> None:
    assert way in FAILURES[failure].ways
    assert cases(failure)
    if failure != "chain-gone":  # nobody keeps a whole chain in the demo
        assert any(repair.way == way for repair in repairs(failure))


def test_every_failure_is_a_row_of_the_table_or_one_of_those_added() -> None:
    assert {row.failure for row in ROWS.values()} | set(ADDED) == set(FAILURES)
    assert all(each.because for each in demo().shelf.mending.left_out.values())


def test_every_bike_and_failure_has_repairs_or_a_reason_or_cannot_happen() -> None:
    found = demo_all().repairs
    assert set(found) == {(bike, failure) for bike in demo().bikes for failure in FAILURES}
    for key, case in found.items():
        assert not case.happens or case.repairs or case.reason is not None, key
        assert case.reason is None or case.reason.code in demo().shelf.mending.reasons
    assert all(repair.usable for case in found.values() for repair in case.repairs)


def test_no_repair_is_kinder_than_its_joints() -> None:
    """At the worst end of the range of every pair on that bike; by numbers only is get-home until tried."""
    for (bike, _), case in demo_all().repairs.items():
        fits = {fit.link: fit for fit in demo_all().by_bike[bike]}
        for repair in case.repairs:
            for bag in repair.bags:
                fit = fits[bag.link]
                assert fit.worst is not None and repair.range.counts >= fit.worst
                if fit.strength != "dry-fitted" and repair.range.worst == PROPER:
                    assert repair.range.counts == GET_HOME


def test_lengths_stay_even_and_the_axle_stays_in_its_room() -> None:
    for (bike, _), case in demo_all().repairs.items():
        room = demo().bikes[bike].dims
        for repair in case.repairs:
            assert repair.change % 2 == 0
            if repair.axle is not None and repair.change < 0:
                assert repair.axle.high <= room["adjuster_forward"].low
                assert repair.axle.high <= room["tyre_clearance"].low


def test_data_hang_together() -> None:
    """Every way, step and caution that is named is there, and none is left over."""
    shelf = demo().shelf
    ways, steps = shelf.mending.ways, shelf.mending.steps
    assert {way for failure in FAILURES.values() for way in failure.ways} == set(ways)
    also = {"plate-by-hand", "rivet-over", "nuts-on"}  # in place of others, by the link
    assert {step for way in ways.values() for step in way.steps} | also == set(steps)
    named = {id_ for failure in FAILURES.values() for id_ in failure.cautions}
    assert named | {id_ for step in steps.values() for id_ in step.cautions} <= set(shelf.cautions)
    rules = shelf.other_rules["clip_lost"]
    assert all(rule in rules for way in ways.values() for rule in way.makeshift)


def test_joints_add_up() -> None:
    """More than one clip joint in the loop: get-home; more than three connecting links: last-resort."""
    assert lowered(PROPER, PROPER, loop_limits(1, 3)).counts == PROPER
    assert lowered(PROPER, PROPER, loop_limits(2, 2)).counts == GET_HOME
    assert lowered(PROPER, PROPER, loop_limits(2, 4)).counts == LAST_RESORT
    assert lowered(PROPER, PROPER, [], GET_HOME).caps == ("untried",)
    assert lowered(GET_HOME, NO_GO, loop_limits(2, 2)).counts == NO_GO


# ---------- a small club whose answers are known ----------


@cache
def demo_raw() -> dict[str, dict[str, dict[str, object]]]:
    """The demo's own files as plain values, to be changed one at a time."""
    import yaml

    from tests.clubs import DATA

    names = (
        "club",
        "chains",
        "links",
        "clips",
        "seals",
        "plates",
        "strips",
        "tools",
        "bikes",
        "trials",
        "rides",
        "rules",
    )
    return {
        name: yaml.load((DATA / "demo" / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader) or {}
        for name in names
    }


def of_demo(bikes: tuple[str, ...], changes: dict[str, dict[str, dict[str, object] | None]]) -> Repairs:
    """The demo with these bikes only and some records changed; None takes a record out."""
    raw: dict[str, dict[str, dict[str, object]]] = {
        name: dict(records) for name, records in demo_raw().items()
    }
    raw["bikes"] = {bike: raw["bikes"][bike] for bike in bikes}
    chains = {str(bike["chain"]) for bike in raw["bikes"].values()}
    raw["chains"] = {id_: chain for id_, chain in raw["chains"].items() if id_ in chains}
    raw["trials"] = {id_: trial for id_, trial in raw["trials"].items() if trial["chain"] in chains}
    raw["rides"] = {}
    for file in ("links", "clips", "plates"):
        for id_, record in raw[file].items():
            if record.get("came_with", next(iter(chains))) not in chains:
                raw[file][id_] = {name: value for name, value in record.items() if name != "came_with"}
    for file, records in changes.items():
        for id_, change in records.items():
            if change is None:
                del raw[file][id_]
            else:
                raw[file][id_] = raw[file].get(id_, {}) | change
    club: Raw = {name: records for name, records in raw.items() if name != "club"} | {"club": raw["club"]}
    return all_fits(checked(club)).repairs


@cache
def practice() -> Repairs:
    return of_demo(("b03",), {})


def best(found: Repairs, failure: str) -> Case:
    return found["b03", failure]


def test_a_second_clip_joint_makes_a_lost_one_get_home() -> None:
    assert best(practice(), "connecting-link-lost").rung == PROPER
    two = of_demo(("b03",), {"bikes": {"b03": {"more_joints": ["tin-1-grey"]}}})
    assert best(two, "connecting-link-lost").rung == GET_HOME
    assert "two-clip-joints" in best(two, "connecting-link-lost").repairs[0].range.caps


def test_more_than_three_connecting_links_are_last_resort() -> None:
    four = of_demo(("b03",), {"bikes": {"b03": {"more_joints": ["tin-1-grey", "tin-1-grey", "tin-1-grey"]}}})
    assert best(four, "connecting-link-lost").rung == LAST_RESORT


def test_a_missing_clip_elsewhere_holds_every_other_repair_down() -> None:
    missing = of_demo(("b03",), {"bikes": {"b03": {"clip_missing": "yes"}}})
    assert best(missing, "outer-plate-broken").rung == LAST_RESORT
    assert best(missing, "clip-lost").rung == PROPER


def test_a_breaker_takes_its_file_along_on_riveted_520() -> None:
    repair = best(practice(), "outer-plate-broken").repairs[0]
    assert {"open", "file"} <= {job.does for job in repair.jobs}
    without = of_demo(("b03",), {"tools": {"file-flat": {"count": "0"}}})
    lacks = best(without, "outer-plate-broken").lacks
    assert any(lack.code == "S014" for lack in lacks)
    assert best(without, "outer-plate-broken").repairs[0].way == "one-plate"


def test_small_chains_need_no_file() -> None:
    found = demo_all().repairs["b10", "outer-plate-broken"].repairs[0]
    assert "file" not in {job.does for job in found.jobs}


def test_no_breaker_and_no_key_are_told_apart() -> None:
    none = of_demo(("b03",), {"tools": {"breaker-pocket": {"count": "0"}, "breaker-van": {"count": "0"}}})
    assert best(none, "inner-link-broken").reason is not None
    assert best(none, "inner-link-broken").reason.code == "S003"  # type: ignore[union-attr]
    keyless = of_demo(("b03",), {"tools": {"key-hex-4": {"count": "0"}, "spanner-14": {"count": "0"}}})
    assert best(keyless, "inner-link-broken").reason.code == "S005"  # type: ignore[union-attr]


def test_a_tool_that_nobody_has_measured_is_named_as_that() -> None:
    """It is there, and of the right size; what its jaws take is not written down."""
    unread = of_demo(
        ("b03",), {"tools": {"breaker-pocket": {"jaw_opening": "unknown"}, "breaker-van": {"count": "0"}}}
    )
    reason = best(unread, "inner-link-broken").reason
    assert reason is not None
    assert (reason.code, reason.kind, reason.about) == ("S019", "tool", "breaker-pocket")


def test_an_unread_adjuster_counts_for_nothing_and_a_short_one_is_a_reason() -> None:
    no_strip: dict[str, dict[str, dict[str, object] | None]] = {"strips": {"strip-grey-5": {"count": "0"}}}
    unread = of_demo(
        ("b03",), {**no_strip, "bikes": {"b03": {"adjuster_forward": "unknown", "tyre_clearance": "25 mm"}}}
    )
    case = best(unread, "inner-link-broken")
    assert not case.repairs and case.untested and "axle-unread" in case.untested[0].range.caps
    short = of_demo(("b03",), {**no_strip, "bikes": {"b03": {"adjuster_forward": "0.4 in"}}})
    assert {lack.code for lack in best(short, "inner-link-broken").lacks} >= {"S006", "S007"}
    roomy = of_demo(("b03",), {**no_strip, "bikes": {"b03": {"tyre_clearance": "25 mm"}}})
    enough = best(roomy, "inner-link-broken").repairs
    assert enough and all(repair.change == -2 for repair in enough)


def test_a_strip_cuts_down_and_never_up() -> None:
    changes = {
        repair.change for repair in best(practice(), "three-inner-outer-inner").repairs if repair.strip
    }
    assert 0 in changes
    one = of_demo(("b03",), {"strips": {"strip-grey-5": {"pitches": "1"}}})
    cut = {repair.change for repair in best(one, "three-inner-outer-inner").repairs if repair.strip}
    assert cut <= {-2}


def test_a_whole_chain_in_the_van_mends_a_lost_one() -> None:
    long = of_demo(("b03",), {"strips": {"strip-grey-5": {"pitches": "115"}}})
    case = best(long, "chain-gone")
    assert case.repairs and case.repairs[0].way == "whole-chain"
    assert best(practice(), "chain-gone").reason.code == "S016"  # type: ignore[union-attr]


def test_a_borrowed_joint_is_get_home_and_names_its_lender() -> None:
    lent = demo_all().repairs["b03", "connecting-link-lost"].lent
    assert lent and all(repair.range.counts >= GET_HOME and repair.lender for repair in lent)
    assert "b04" in {repair.lender for repair in lent}


def test_a_club_may_count_what_is_proper_by_numbers() -> None:
    by_numbers = of_demo(
        ("b03",),
        {"trials": {id_: None for id_, t in demo_raw()["trials"].items() if t["chain"] == "grey-520"}},
    )
    assert best(by_numbers, "connecting-link-lost").rung >= GET_HOME
