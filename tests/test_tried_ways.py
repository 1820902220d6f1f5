"""A dry fit that bears on no way to join its pair is told; one that does is not.  The engine itself says which do."""

from itertools import islice, product
from typing import Any

import pytest

from generator.compute.fit.options import all_options, bench
from generator.compute.fit.trials import trial_positions
from generator.validate.dataset import build_dataset
from tests.clubs import loaded, shelf_files

ANSWERS = {"enters": "yes", "clip_on": "yes", "bends": "yes"}
SEALS = ("fitted", "left-out", "packed", "none")
# of a trial that bears on nothing; T505 and T507 say more of two such cases
TOLD = {"T505", "T507", "T510"}


def club(
    closure: str = "clip",
    own_clip: str | None = "own",
    other_count: str = "1",
    own_count: str = "1",
    link_seals: str | None = "rings",
    rings: str = "1",
    washers: str | None = None,
    more_washers: str | None = None,
    named: str | None = None,
    kind: str = "sealed",
    **trial: str,
) -> dict[str, Any]:
    chain = {"size_code": "520", "kind": kind, "seal": "O" if kind == "sealed" else "none"}
    link = {
        "size_code": "520",
        "closure": closure,
        "plate_fit": "press",
        "made_for": "sealed",
        "condition": "new",
    }
    sets = {"more": more_washers, "washers": washers}
    seals = {"rings": {"shape": "O", "count": rings}} | {
        id_: {"shape": "washer", "count": count} for id_, count in sets.items() if count
    }
    if named:
        trial["washers"] = named
    return {
        "chains": {"chain": chain},
        "links": {"link": link | {"clip": own_clip or "none", "seals": link_seals or "none"}},
        "clips": {
            "other": {"history": "new", "count": other_count},
            "own": {"history": "new", "count": own_count},
        },
        "seals": seals,
        "trials": {"trial": {"chain": "chain", "link": "link", "on": "2027-02-01", **ANSWERS, **trial}},
    }


def codes_of(raw: dict[str, Any]) -> set[str]:
    return {problem.code for problem in build_dataset(loaded(raw), shelf_files())[1]}


def told_as_due(raw: dict[str, Any]) -> bool:
    """Is the trial told of?  So it must be where it has the clip and the seals of no option."""
    dataset, problems = build_dataset(loaded(raw), shelf_files())
    codes = {problem.code for problem in problems}
    if dataset is None:
        assert "T505" in codes
        return True
    on = bench(dataset)
    found = trial_positions(dataset.trials["trial"].record, on, all_options(dataset, on))
    assert bool(codes & TOLD) == (len(found) == 0), raw
    return not len(found)


@pytest.mark.parametrize("seals", SEALS)
@pytest.mark.parametrize("kind", ["sealed", "plain"])
@pytest.mark.parametrize(
    "share", [pytest.param(1, marks=pytest.mark.long, id="all"), pytest.param(5, id="a fifth")]
)
def test_a_warning_stands_exactly_where_the_engine_finds_no_way(seals: str, kind: str, share: int) -> None:
    seen = set()
    every = product(
        (("0", "0"), ("0", "1"), ("1", "0")),
        ("own", None),
        ("own", "other", None),
        ("rings", None),
        ("0", "1"),
        (None, "2"),
        (None, "1"),
    )
    # five has no factor in common with the lengths of the choices, so that each word meets each other
    for counts, own, named, link_seals, rings, washers, more in islice(every, 0, None, share):
        trial = {"seals": seals} | ({"clip": named} if named else {})
        raw = club(
            own_clip=own, own_count=counts[0], other_count=counts[1], link_seals=link_seals, rings=rings, washers=washers,
            more_washers=more,
            kind=kind, **trial,
        )  # fmt: skip
        seen.add(told_as_due(raw))
    assert seen == {True, False}


@pytest.mark.parametrize("seals", SEALS)
def test_on_a_riveted_link_no_clip_is_missed(seals: str) -> None:
    for link_seals, washers in product(("rings", None), (None, "2")):
        raw = club("rivet", None, link_seals=link_seals, washers=washers, seals=seals)
        del raw["trials"]["trial"]["clip_on"]
        told_as_due(raw)


def test_what_counts_whichever_way_the_pair_is_joined_is_not_lost() -> None:
    """Pins that go in do so with any clip and any seals."""
    raw = club(own_count="0", seals="fitted")
    assert "T510" in codes_of(raw)
    raw["trials"]["trial"] |= {"clip_on": "unknown", "bends": "unknown"}
    assert "T510" not in codes_of(raw)


@pytest.mark.parametrize(
    ("changed", "at", "message", "fix"),
    [
        ({"own_count": "0"}, 1, "none of clip 'own' is left (count: 0), so that clip_on and bends count for no way", "put the clip back"),
        ({"own_count": "0", "clip": "own"}, 9, "none of clip 'own' is left", "put the clip back"),
        ({"washers": "0", "seals": "packed"}, 8, "no packing washers are in stock", "write the washers into seals.yaml"),
        ({"washers": "2", "more_washers": "1", "seals": "packed"}, 8, "the club has several sets of washers", "write washers: more"),
        ({"washers": "2", "more_washers": "0", "seals": "packed", "named": "more"}, 9, "'more' are no packing washers in stock", "write the washers"),
        ({"washers": "2", "named": "washers"}, 9, "washers are named, but seals is fitted", "write seals: packed"),
        ({"rings": "0"}, 8, "none of seals 'rings' is left (count: 0)", "put the seals back"),
        ({"link_seals": None}, 8, "the link has no seals", "name the seals of the link"),
    ],
)  # fmt: skip
def test_each_says_what_is_missing_and_what_to_do(
    changed: dict[str, Any], at: int, message: str, fix: str
) -> None:
    raw = club(**({"seals": "fitted"} | changed))
    found = [p for p in build_dataset(loaded(raw), shelf_files())[1] if p.code == "T510"]
    assert [problem.level for problem in found] == ["warning"]
    assert found[0].message.startswith(message) and found[0].fix.startswith(fix)
    assert (found[0].place.file, found[0].place.line) == ("trials.yaml", at)
