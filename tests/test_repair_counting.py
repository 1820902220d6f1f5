"""Which links come out and what fills the gap, against brute force over every loop, run and clip link.

Brute force: of all sets of links that hold the damage, the smallest that leaves nothing but whole pieces with inner links
at their ends; a filling is right where inner and outer links take turns round the whole loop afterwards.
"""

from itertools import combinations, product

import pytest

from generator.compute.repair.counting import PITCHES_OUT, Gap, filling, fillings, gaps, taken_out

LOOPS = range(6, 17, 2)


def whole(pitches: int, out: frozenset[int]) -> bool:
    """Are there links left, and does every piece that is left end in inner links (even numbers)?"""
    left = [at for at in range(pitches) if at not in out]
    ends = [at for at in left if (at - 1) % pitches in out or (at + 1) % pitches in out]
    return bool(left) and all(at % 2 == 0 for at in ends)


def smallest(pitches: int, damaged: frozenset[int]) -> list[frozenset[int]]:
    """Every smallest set that will do, by trying all of them."""
    rest = [at for at in range(pitches) if at not in damaged]
    for more in range(len(rest) + 1):
        found = [damaged | set(extra) for extra in combinations(rest, more)]
        good = [frozenset(out) for out in found if whole(pitches, frozenset(out))]
        if good:
            return good
    return []


def run(pitches: int, first: int, length: int) -> frozenset[int]:
    return frozenset((first + step) % pitches for step in range(length))


@pytest.mark.parametrize("pitches", LOOPS)
def test_what_comes_out_is_the_one_smallest_set(pitches: int) -> None:
    for first, length in product(range(pitches), range(1, min(6, pitches - 2))):
        damaged = run(pitches, first, length)
        assert smallest(pitches, damaged) == [taken_out(pitches, damaged)]


@pytest.mark.parametrize("pitches", LOOPS)
def test_two_separate_runs_are_two_gaps_or_grow_into_one(pitches: int) -> None:
    for first, other in combinations(range(pitches), 2):
        for lengths in product((1, 2, 3), repeat=2):
            damaged = run(pitches, first, lengths[0]) | run(pitches, other, lengths[1])
            best = smallest(pitches, damaged)
            if not best:
                with pytest.raises(ValueError, match="no good link"):
                    gaps(pitches, damaged)
                continue
            found = gaps(pitches, damaged)
            assert best == [frozenset(at for gap in found for at in run(pitches, gap.first, gap.length))]
            assert all(gap.length % 2 == 1 and gap.first % 2 == 1 for gap in found)


@pytest.mark.parametrize("pitches", LOOPS)
def test_every_filling_makes_a_loop_whose_links_take_turns(pitches: int) -> None:
    for first, length in product(range(pitches), range(1, min(6, pitches - 2))):
        damaged = run(pitches, first, length)
        if not smallest(pitches, damaged):
            continue
        (gap,) = gaps(pitches, damaged)
        for one in fillings(gap.length, 7):
            put_in = (
                ["outer"]
                if one.links == 1
                else ["outer", *(["inner", "outer"] * one.strip)[: one.strip], "outer"]
            )
            kept = [
                "inner" if at % 2 == 0 else "outer"
                for at in ((gap.first + gap.length + step) % pitches for step in range(pitches - gap.length))
            ]
            loop = put_in + kept
            assert len(loop) == pitches + one.change and len(loop) % 2 == 0
            assert all(one != other for one, other in zip(loop, loop[1:] + loop[:1], strict=True))


@pytest.mark.parametrize("pitches", (8, 10))
def test_a_clip_link_at_the_edge_of_a_gap_opens_without_a_breaker(pitches: int) -> None:
    for first, length, clip in product(range(pitches), range(1, 4), range(1, pitches, 2)):
        (gap,) = gaps(pitches, run(pitches, first, length), clip_link=clip)
        ends = {gap.first, (gap.first + gap.length - 1) % pitches}
        assert set(gap.to_open) == ends - {clip}


def test_worked_by_hand() -> None:
    """Counting rules of the trade: 1, 3 and 5 pitches come out, and what may go in."""
    assert gaps(10, [3], torn=[3]) == (Gap(3, 1, ()),)  # the joint itself is gone
    assert gaps(10, [3]) == (Gap(3, 1, (3,)),)  # a broken outer plate
    assert gaps(10, [4]) == (Gap(3, 3, (3, 5)),)  # a broken inner link
    assert gaps(10, [3, 4, 5]) == (Gap(3, 3, (3, 5)),)  # outer, inner, outer
    assert gaps(10, [4, 5, 6]) == (Gap(3, 5, (3, 7)),)  # inner, outer, inner
    assert gaps(10, [9, 0], torn=[9]) == (Gap(9, 3, (1,)),)  # joint gone and the bush beside it cracked
    for damage, links in {
        "outer": [3],
        "inner": [4],
        "outer-inner-outer": [3, 4, 5],
        "inner-outer-inner": [4, 5, 6],
        "joint-and-inner": [3, 4],
    }.items():
        assert PITCHES_OUT[damage] == gaps(10, links)[0].length  # type: ignore[index]
    assert [(one.links, one.strip, one.change) for one in fillings(5, 3)] == [
        (2, 3, 0),
        (2, 1, -2),
        (1, 0, -4),
    ]
    assert [(one.links, one.strip, one.change) for one in fillings(3, 3)] == [
        (2, 1, 0),
        (1, 0, -2),
        (2, 3, 2),
    ]
    assert [(one.links, one.change) for one in fillings(1, 0)] == [(1, 0)]


def test_what_cannot_be_counted_is_refused() -> None:
    with pytest.raises(ValueError, match="even"):
        gaps(9, [3])
    with pytest.raises(ValueError, match="odd"):
        filling(2, 1)
    with pytest.raises(ValueError, match="odd"):
        filling(3, 2)
