"""What is most worth measuring: counted over pairs, and true when it is measured."""

from dataclasses import replace

from generator.compute.fit.result import MeasureNext, PairFit
from generator.compute.worth_measuring import Worth, worth_measuring
from generator.model.reading import Reading
from generator.render.worth_text import MOST_SHOWN, worth_text


def open_pair(link: str, reading: Reading, to_within: int | None) -> PairFit:
    return PairFit("chain", link, 0, 3, None, True, measure_next=MeasureNext(reading, to_within))


def test_readings_are_counted_and_the_closest_asked_for() -> None:
    bore, reach = Reading("chain", "a", "bush_bore"), Reading("link", "b", "pin_reach")
    fits = [
        open_pair("1", bore, 50_000),
        open_pair("2", bore, 20_000),
        open_pair("3", reach, None),
        PairFit("chain", "4", 0, 0, None, True),
    ]
    assert worth_measuring(fits) == (Worth(bore, 2, 20_000), Worth(reach, 1, None))
    assert worth_text(worth_measuring(fits), fits).splitlines() == [
        "of 4 pairs 3 are measure-first and 0 cannot be judged",
        "most worth measuring next:",
        "  chain a: bush_bore to within ±0.02 mm; 2 open pairs",
        "  link b: pin_reach; 1 open pair",
    ]


def test_what_is_not_read_yet_a_question_and_a_dry_fit_are_told_apart() -> None:
    reach, own = Reading("link", "b", "pin_reach"), Reading("chain", "a", "own_link")
    fits = [
        replace(open_pair("1", reach, 4_000), measure_next=MeasureNext(reach, 4_000, "reachable")),
        replace(open_pair("2", own, None), measure_next=MeasureNext(own, None, "question")),
        replace(open_pair("3", reach, None), measure_next=MeasureNext(reach, None, "dry-fit")),
    ]
    assert [worth.pairs for worth in worth_measuring(fits)] == [1, 1], "a dry fit is no reading"
    assert worth_text(worth_measuring(fits), fits).splitlines() == [
        "of 3 pairs 3 are measure-first and 0 cannot be judged",
        "no instrument listed settles 1 of them: dry-fit them and record the trials",
        "most worth measuring next:",
        "  chain a: find out own_link; 1 open pair",
        "  link b: pin_reach, not read yet (best listed ±0.004 mm); 1 open pair",
    ]


def test_a_long_list_says_how_much_is_left_out() -> None:
    fits = [open_pair(str(n), Reading("link", str(n), "pin_reach"), 20_000) for n in range(MOST_SHOWN + 2)]
    assert worth_text(worth_measuring(fits), fits).splitlines()[-1].startswith("  and 2 more readings")


def test_nothing_open_is_said_only_where_nothing_is_open() -> None:
    decided = PairFit("chain", "1", 0, 0, None, True)
    unnamed = PairFit("chain", "2", 1, 3, None, True)
    refused = PairFit("chain", "3", None, None, "its kind is not known", True)
    assert worth_text((), [decided]) == "all of 1 pairs are decided by what is known\n"
    assert worth_text((), []).startswith("no pair to judge yet")
    said = worth_text((), [decided, unnamed, refused])
    assert "1 are measure-first and 1 cannot be judged" in said
    assert "dry-fit them and record the trials" in said
    assert "decided by" not in said
