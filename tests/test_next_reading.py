"""What to measure next, held to its word: read again as asked, the check it names is decided.

Every promise is looked at through a whole new calculation of the club with the reading replaced, never through the code
that made the promise.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from random import Random
from typing import Any

import pytest

from generator.compute.fit.fits import explain_pair, fit_table
from generator.compute.fit.next_reading import STEP_NM
from generator.compute.fit.result import CheckFit, MeasureNext, OptionFit, PairFit
from generator.compute.others.clip_links import clip_link_fits
from generator.compute.others.strips import strip_fits
from generator.compute.reading_cost import closest_possible
from generator.load.folder import load_club
from generator.model.dataset import Dataset
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.render.say.next_step import next_step
from generator.render.say.said import plain
from generator.rules.stack import counted_bow, stacked
from generator.validate.dataset import build_dataset
from generator.validate.measure import with_between_outer_plates
from tests.clubs import DATA, shelf_files
from tests.joints import Piece, base_pieces, dataset_of, nm
from tests.random_joints import random_joint

KINDS = {
    "chain": "chains",
    "link": "links",
    "clip": "clips",
    "bike": "bikes",
    "seal": "seals",
    "strip": "strips",
}
SEEDS = range(360)


@cache
def demo() -> Dataset:
    dataset, _ = build_dataset(load_club(DATA / "demo"), shelf_files())
    assert dataset is not None
    return dataset


def known(dataset: Dataset, reading: Reading) -> Quantity | None:
    part = getattr(dataset, KINDS[reading.kind])[reading.id]
    found: Quantity | None = part.dims.get(reading.field)
    # what nobody read of a clip is bounded all the same: its bow, and how thick it was when new
    bounded = {"bow": counted_bow, "thickness_new": stacked}.get(reading.field)
    return bounded(part, dataset.shelf) if found is None and bounded else found


def read_again(dataset: Dataset, reading: Reading, value: int, within: int) -> Dataset:
    """The same club with one reading replaced."""
    kind = KINDS[reading.kind]
    parts = getattr(dataset, kind)
    part = parts[reading.id]
    dims = {**part.dims, reading.field: Quantity(max(value - within, 0), value, value + within)}
    if reading.kind == "chain" and part.record.between_outer_plates is None:
        if "over_outer_plates" in dims and "plate_thickness" in dims:
            # derived from what may just have been read again
            dims.pop("between_outer_plates", None)
        dims = with_between_outer_plates(dims)
    changed: dict[str, Any] = {kind: {**parts, reading.id: replace(part, dims=dims)}}
    return replace(dataset, **changed)


def as_asked(dataset: Dataset, found: MeasureNext) -> Dataset:
    """Every reading asked for comes out where it was."""
    for reading, within in ((found.reading, found.to_within), *found.also):
        before = known(dataset, reading)
        assert before is not None and within is not None
        dataset = read_again(dataset, reading, before.nominal, within)
    return dataset


def same_option(dataset: Dataset, fit: PairFit) -> OptionFit:
    """Most often the best one again, which spares a look at all the others."""
    assert fit.option is not None
    (again,) = fit_table(dataset, [fit.chain], [fit.link])
    if again.option is not None and way_of(again.option) == way_of(fit.option):
        return again.option
    _, options = explain_pair(dataset, fit.chain, fit.link)
    return next(option for option in options if way_of(option) == way_of(fit.option))


def way_of(option: OptionFit) -> tuple[object, ...]:
    return (option.clip, option.seals, option.seal_set)


def check_of(option: OptionFit, id_: str | None) -> CheckFit:
    return next(check for check in option.checks if check.id == id_)


@cache
def open_pairs() -> tuple[tuple[Dataset, PairFit, MeasureNext], ...]:
    """Of the demo and of joints at random, those whose chosen way is open."""
    datasets = [demo(), *(random_joint(Random(seed)).dataset() for seed in SEEDS)]
    return tuple(
        (dataset, fit, fit.measure_next)
        for dataset in datasets
        for fit in fit_table(dataset)
        if fit.measure_next is not None and fit.option is not None and fit.option.best < fit.option.worst
    )


def of_kind(*hows: str) -> Iterator[tuple[Dataset, PairFit, MeasureNext]]:
    found = [each for each in open_pairs() if each[2].how in hows]
    assert found, hows
    return iter(found)


def test_there_is_enough_to_look_at() -> None:
    hows = [found.how for _, _, found in open_pairs()]
    assert hows.count("needed") >= 20
    assert hows.count("reachable") >= 20
    assert hows.count("dry-fit") >= 20
    assert hows.count("together") >= 2


def test_a_reading_as_close_as_asked_decides_the_check_it_names() -> None:
    for dataset, fit, found in of_kind("needed", "together"):
        after = same_option(as_asked(dataset, found), fit)
        check = check_of(after, found.settles)
        assert check.best == check.worst, (fit.chain, fit.link, found)


def test_so_it_does_wherever_the_truth_lies_no_nearer_to_a_limit() -> None:
    """True values all over the old interval; those nearer to a limit than the old reading are excepted, as said."""
    looked_at = 0
    for dataset, fit, found in of_kind("needed"):
        before = known(dataset, found.reading)
        assert before is not None and found.to_within is not None
        old = check_of(same_option(dataset, fit), found.settles)
        evenly = {before.low + (before.high - before.low) * part // 8 for part in range(9)}
        halfway = {(end + before.nominal) // 2 for end in (before.low, before.nominal, before.high)}
        for value in sorted(evenly | halfway):
            option = same_option(read_again(dataset, found.reading, value, found.to_within), fit)
            check = check_of(option, found.settles)
            if not nearer(old, check):
                looked_at += 1
                assert check.best == check.worst, (fit.chain, fit.link, found, value)
    assert looked_at >= 50


def nearer(before: CheckFit, now: CheckFit) -> bool:
    """Is any limit nearer than it was, or on the other side?"""
    for old, new in zip(before.edges, now.edges, strict=True):
        assert old.slack is not None and new.slack is not None
        was, is_ = old.slack.nominal, new.slack.nominal
        if (was < 0) != (is_ < 0) or abs(is_) < abs(was):
            return True
    return False


def test_a_coarser_reading_would_not_do() -> None:
    """The ± asked for is the widest in steps of a caliper."""
    looked_at = 0
    for dataset, fit, found in of_kind("needed"):
        before = known(dataset, found.reading)
        assert before is not None and found.to_within is not None
        wider = (found.to_within // STEP_NM + 1) * STEP_NM
        if wider < max(before.nominal - before.low, before.high - before.nominal):
            looked_at += 1
            coarse = read_again(dataset, found.reading, before.nominal, wider)
            check = check_of(same_option(coarse, fit), found.settles)
            assert check.best < check.worst, (fit.chain, fit.link, found)
    assert looked_at >= 5


def test_what_is_said_to_be_open_then_is_open_and_nothing_else_leaves_the_verdict_open() -> None:
    for dataset, fit, found in of_kind("needed", "together"):
        after = same_option(as_asked(dataset, found), fit)
        still = {check.id for check in after.checks if check.best < check.worst}
        assert set(found.then_open) <= still, (fit.chain, fit.link, found)
        assert bool(found.then_open) == (after.best < after.worst), (fit.chain, fit.link, found)
        if not found.then_open:
            assert found.decides == after.best == after.worst


def test_a_pair_said_to_be_settled_is_settled() -> None:
    settled = [each for each in of_kind("needed", "together") if each[2].settles_pair]
    assert len(settled) >= 5
    for dataset, fit, found in settled:
        after, _ = explain_pair(as_asked(dataset, found), fit.chain, fit.link)
        assert after.best == after.worst == found.decides, (fit.chain, fit.link, found)


def test_where_a_dry_fit_is_asked_for_no_listed_instrument_would_do() -> None:
    for dataset, fit, found in of_kind("dry-fit"):
        before = known(dataset, found.reading)
        reach = closest_possible(found.reading, dataset)
        assert before is not None
        assert found.to_within is None
        if reach is None:
            continue
        closer = read_again(dataset, found.reading, before.nominal, reach)
        check = check_of(same_option(closer, fit), found.settles)
        assert check.best < check.worst, (fit.chain, fit.link, found)
        assert found.needed is None or found.needed < reach or reach >= before.half_width


def test_a_closeness_shown_is_never_nothing_and_never_closer_than_an_instrument_reads() -> None:
    for dataset, fit, found in open_pairs():
        if found.to_within is not None:
            reach = closest_possible(found.reading, dataset)
            assert reach is not None and 0 < reach <= found.to_within
        said = plain(next_step(dataset, fit))
        assert "± 0.00 mm" not in said and "± 0 mm" not in said, said


def test_what_was_never_read_is_said_to_be_so() -> None:
    for dataset, fit, found in of_kind("reachable"):
        assert known(dataset, found.reading) is None
        assert found.to_within == closest_possible(found.reading, dataset)
        assert "nobody has read yet" in plain(next_step(dataset, fit))


def test_a_word_is_asked_for_as_a_question() -> None:
    questions = [each for each in open_pairs() if each[2].how == "question"]
    assert questions
    for dataset, fit, found in questions:
        assert found.to_within is None
        said = plain(next_step(dataset, fit))
        assert "±" not in said.split(".")[0] and not said.startswith("Measure over"), said


@pytest.mark.parametrize("fits_of", [clip_link_fits, strip_fits])
def test_parts_that_meet_are_settled_too(fits_of: Any) -> None:
    """A clip on a link, a strip in a chain: no other way to join them, so the verdict is what is promised."""
    dataset = demo()
    for fit in fits_of(dataset):
        found = fit.measure_next
        if found is None or found.how not in ("needed", "together"):
            continue
        after = next(each for each in fits_of(as_asked(dataset, found)) if each.parts == fit.parts)
        check = next(each for each in after.checks if each.id == found.settles)
        assert check.best == check.worst, (fit.parts, found)
        assert not found.settles_pair or after.best == after.worst == found.decides


def beside(read: str | None, own: dict[str, str], link_length: str = "17.30") -> PairFit:
    """Two bikes run the chain; the room of `bike` is as read, that of `bike-2` nobody knows."""
    pieces = base_pieces()
    low = nm(link_length)
    pieces["link"].dims["L"] = (low - 50_000, low, low + 50_000)
    pieces["chain"].words |= {"own_joint": own["joint"]}
    if "L" in own:
        pieces["own"].dims["L"] = (nm(own["L"]),) * 3
    pieces["bike-2"] = Piece("bike", "bike-2", dict(pieces["bike"].words))
    pieces["bike"].dims = {} if read is None else {"clr": (nm(read),) * 3}
    return fit_table(dataset_of(list(pieces.values())), ["chain"], ["link"])[0]


def test_a_room_nobody_read_is_not_asked_for_where_the_read_one_rules_the_link_out() -> None:
    """The pins reach 1.075 mm out; with 1.40 mm of room 0.90 mm is the most, whatever the other bike has."""
    fit = beside("1.40", {"joint": "rivet"})
    assert (fit.word, fit.measure_next) == ("no-go", None)
    assert fit.option is not None and fit.option.deciding == "stick-out"


def test_a_room_nobody_read_is_asked_for_where_the_verdict_hangs_on_it() -> None:
    fit = beside("4.00", {"joint": "rivet"})
    assert (fit.best, fit.worst) == (0, 3)
    assert fit.measure_next is not None
    assert fit.measure_next.reading == Reading("bike", "bike-2", "clearance_clip_side")
    assert fit.measure_next.settles == "stick-out-unread"


@pytest.mark.parametrize("read", ["9.00", None])
def test_a_room_nobody_read_is_not_asked_for_where_the_own_joint_shows_it_enough(read: str | None) -> None:
    """The own joint reaches 2.175 mm out and clears; the link at 1.975 ± 0.05 mm is open at the 2.00 mm of proper."""
    fit = beside(read, {"joint": "clip-press", "L": "18.40"}, "18.20")
    assert (fit.best, fit.worst) == (0, 1)
    assert fit.measure_next is not None
    assert fit.measure_next.reading == Reading("link", "link", "pin_length")
