"""Size codes against each other and against their own names, and what instruments cost.

Outside sources: the trade's cross-fit rules of thumb (common practice, no source); the naming rule and its
exceptions in tests/outside/published.yaml; DIN 862 for calipers.
"""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from generator.compute.citations import cited, shares
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.compute.naming import naming_of
from generator.compute.reading_cost import not_named, reading_costs
from generator.compute.size_by_size import KINDS, Crossing, motorcycle_codes, size_by_size
from generator.model.chain_parts import Chain, Link
from generator.model.club import Instrument
from generator.model.dataset import Part
from generator.model.length import parse_length
from generator.render.pages.sizes.naming_words import naming_lines
from generator.validate.measure import quantity_of
from tests.clubs import checked, shelf
from tests.handbook import demo
from tests.outside.figures import published

NAMING = published()["naming"]


def crossings(link: str, chain: str) -> Iterator[Crossing]:
    return (x for x in size_by_size(demo()) if (x.link_code, x.chain_code) == (link, chain))


def ends(link: str, chain: str, same_kind: bool) -> set[tuple[int, int]]:
    return {(x.best, x.worst) for x in crossings(link, chain) if x.same_kind == same_kind}


@pytest.mark.parametrize(
    ("link", "chain", "ceiling"),
    [
        ("520", "520", 0),
        ("428H", "428H", 0),
        ("428", "520", 3),  # another pitch
        ("520", "428", 3),
        ("630", "530", 3),
        ("530", "520", 1),  # wider on narrower: a makeshift at best
        ("530", "525", 1),
        ("525", "520", 1),
        ("520", "525", 3),  # narrower on wider: the pins are too short
        ("520", "530", 3),
        ("525", "530", 3),
        ("420", "428", 3),  # pin and width differ
        ("428", "420", 3),
        ("520", "520H", 1),  # standard on heavy, heavy on standard
        ("520H", "520", 1),
        ("428H", "428", 1),
    ],
)
def test_codes_alone_agree_with_the_rules_of_thumb(link: str, chain: str, ceiling: int) -> None:
    assert ends(link, chain, same_kind=True) == {(ceiling, 3)}
    assert ends(link, chain, same_kind=False) == {(max(ceiling, 1), 3)}


def test_codes_alone_never_promise() -> None:
    every = size_by_size(demo())
    codes = motorcycle_codes(demo())
    assert len(every) == (len(codes) * len(KINDS)) ** 2
    assert {x.worst for x in every} == {3}
    assert {x.evidence for x in every} == {"common-practice"}
    assert len({(x.link_code, x.link_kind, x.chain_code, x.chain_kind) for x in every}) == len(every)


SOUND = {"condition": "new", "half_link": "no", "flared": "no", "seals": "none"}


@pytest.mark.parametrize("closure", ["clip", "rivet", "screw"])
@pytest.mark.parametrize("fit", ["slip", "press", "press-to-shoulder"])
def test_no_other_closure_or_fit_comes_out_better(closure: str, fit: str) -> None:
    for code in ("520", "525", "428H"):
        link = Link.model_validate(
            {"size_code": code, "closure": closure, "plate_fit": fit, "made_for": "plain", **SOUND}
        )
        chain = Chain.model_validate(
            {"size_code": "520", "kind": "plain", "seal": "none", "state": "as-made"}
        )
        bare = replace(
            checked({}), chains={"c": Part("chain", "c", chain, {})}, links={"l": Part("link", "l", link, {})}
        )
        best = min(Judge(bare, bench(bare)).verdicts().best.tolist())
        plain = [x for x in crossings(code, "520") if x.link_kind == x.chain_kind == "plain"]
        assert best >= plain[0].best


def test_a_club_s_own_parts_do_not_change_what_the_codes_say() -> None:
    assert size_by_size(demo()) == size_by_size(checked({}))


@pytest.mark.parametrize("code", [c for c in motorcycle_codes(demo()) if c != "25H"])
def test_the_name_of_a_code_is_read_as_the_rule_says(code: str) -> None:
    naming = naming_of(shelf().sizes[code])
    bare = code.rstrip("H")
    assert naming is not None
    assert naming.pitch.by_name == int(code[0]) * round(NAMING["eighth_mm"]["value"] * 10**6)
    assert naming.width.by_name == int(bare[1:]) * round(NAMING["eightieth_mm"]["value"] * 10**6)
    breaks_pitch = bare in NAMING["pitch_breaks_the_rule"]["codes"]
    breaks_width = bare in NAMING["width_breaks_the_rule"]["rows"]
    assert naming.pitch.agrees is not breaks_pitch
    assert naming.follows is not (breaks_pitch or breaks_width)


@pytest.mark.parametrize("code", ["25H", "08B", "10A", "085"])
def test_the_rule_is_not_asked_of_codes_it_was_not_made_for(code: str) -> None:
    assert naming_of(shelf().sizes[code]) is None


@pytest.mark.parametrize(
    ("recipe", "instrument", "minus", "plus"),
    [
        # DIN 862 digital caliper 0.02 outside, 0.04 inside and depth; then what the recipe adds
        ("pin-length", "digital-caliper", 60_000, 60_000),
        ("pin-reach", "digital-caliper", 70_000, 70_000),
        ("bush-bore", "digital-caliper", 40_000, 140_000),
        ("side-plate-thickness", "vernier-005", 50_000, 50_000),
        ("groove-diameter", "vernier-005", 100_000, 100_000),
        ("side-plate-thickness", "inch-caliper", 25_400, 25_400),
        ("clip-mouth", "inch-caliper", 70_800, 70_800),
    ],
)
def test_a_reading_costs_what_instrument_and_recipe_add_up_to(
    recipe: str, instrument: str, minus: int, plus: int
) -> None:
    (cost,) = [c for c in reading_costs(demo(), shelf().recipes[recipe]) if c.instrument == instrument]
    assert (cost.minus, cost.plus, cost.of_club, cost.fits) == (minus, plus, False, True)


def test_the_cost_is_the_width_the_reading_gets() -> None:
    for recipe in shelf().recipes.values():
        written = parse_length("100 mm")
        for cost in reading_costs(demo(), recipe):
            instrument = demo().club.instruments.get(cost.instrument)
            if instrument is None and cost.instrument:
                instrument = Instrument(kind=cost.instrument)
            got = quantity_of(written, recipe, instrument, shelf())
            assert (got.nominal - got.low, got.high - got.nominal) == (cost.minus, cost.plus)
        worst = not_named(demo(), recipe)
        got = quantity_of(written, recipe, None, shelf())
        assert (got.nominal - got.low, got.high - got.nominal) == (worst.minus, worst.plus)


def test_an_instrument_without_such_faces_counts_as_the_worst() -> None:
    costs = {c.instrument: c for c in reading_costs(demo(), shelf().recipes["pin-reach"])}
    assert not costs["shed-micrometer"].fits
    assert costs["shed-micrometer"].own == max(c.own for c in costs.values() if not c.of_club)
    assert "micrometer" not in costs  # of its kind none can read it


def test_a_gauge_recipe_has_one_cost_whatever_is_named() -> None:
    (cost,) = reading_costs(demo(), shelf().recipes["groove-width"])
    assert (cost.own, cost.minus, cost.plus) == (0, 20_000, 20_000)


def test_shares_are_in_thousandths_strongest_word_first() -> None:
    counted = shares(["published", "from-memory", "published", "measured"])
    assert counted == (("measured", 1, 250), ("published", 2, 500), ("from-memory", 1, 250))
    assert shares([]) == ()


def test_a_citation_is_taken_apart() -> None:
    assert cited("jis-note[row 520]") == ("jis-note", "row 520")
    assert cited("jis-note") == ("jis-note", "")


def test_a_code_whose_width_is_not_known_does_not_break_the_rule() -> None:
    size = shelf().sizes["520"]
    bare = replace(size, dims={name: value for name, value in size.dims.items() if name != "inner_width"})
    lines = naming_lines(demo(), bare)
    assert lines is not None
    assert lines.follows == "520 follows the naming rule."
    assert lines.width[-1] == ". The width is not known."
