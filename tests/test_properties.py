"""What must hold of any joint: ranges are sound, wider readings never narrow them, units and order change nothing."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset, Part, TrialFacts
from generator.model.length import parse_length
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.trials_and_rides import Trial
from tests import oracle
from tests.club_maker import small_club
from tests.clubs import checked
from tests.engine import Told, Way, dims_of, every_option
from tests.joints import Piece, base_pieces
from tests.random_joints import RandomJoint, random_joint

Settings = Callable[[Callable[..., Any]], Callable[..., Any]]


def examples(number: int) -> Settings:
    return settings(
        max_examples=number, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
    )  # fmt: skip


randoms = st.randoms(use_true_random=False)
KINDS = ("chains", "links", "clips", "seals", "bikes")
WORN = "elongation"


def with_dims(dataset: Dataset, change: Callable[[str, Quantity], Quantity]) -> Dataset:
    """Every dimension of every part changed; the function is told the part and the field."""
    parts: dict[str, Any] = {
        kind: {id_: _changed(part, change) for id_, part in getattr(dataset, kind).items()} for kind in KINDS
    }
    return replace(dataset, **parts)


def _changed(part: Part[Any], change: Callable[[str, Quantity], Quantity]) -> Part[Any]:
    return replace(part, dims={name: change(f"{part.id} {name}", q) for name, q in part.dims.items()})


def with_readings(dataset: Dataset, change: Callable[[str, Quantity], Quantity]) -> Dataset:
    """All but elongation changed: it allows as much play as is surely worn, so that a closer one may be kinder."""
    return with_dims(dataset, lambda name, q: q if name.endswith(WORN) else change(name, q))


def fit_of(dataset: Dataset) -> PairFit:
    return fit_table(dataset, ["chain"], ["link"])[0]


def point(random: Random, quantity: Quantity) -> Quantity:
    """Somewhere in the interval, on an end as often as not."""
    at = random.choice(
        (quantity.low, quantity.high, quantity.nominal, random.randint(quantity.low, quantity.high))
    )
    return replace(quantity, low=at, nominal=at, high=at)


def by_readings_alone(joint: RandomJoint) -> RandomJoint:
    """Without what is known by make or out of one packet, which drawn dimensions may belie, and without a clip stop,
    which dimensions drawn each by itself contradict."""
    if "clip" in joint.pieces:
        joint.pieces["clip"].words["history"] = "off-once"
    joint.pieces["link"].words.pop("came_with", None)
    joint.pieces["link"].dims.pop("C", None)
    return joint


def drawn(random: Random, dataset: Dataset) -> Dataset:
    """A point of every interval."""
    return with_readings(dataset, lambda _, q: point(random, q))


def unknown_at_a_value(random: Random, joint: RandomJoint, complete: RandomJoint) -> None:
    """What is not known is something all the same: fill it from a joint that knows it, off by up to a millimetre.

    A new clip of unknown new thickness is as thick as it is, and a strength counts only where it is printed.
    """
    for id_, piece in joint.pieces.items():
        for symbol, ends in complete.pieces.get(id_, piece).dims.items():
            if symbol not in piece.dims and symbol not in ("k0", "Fl", "Fc", "h", "h2", "C"):
                value = max(ends[1] + random.randint(-1_000_000, 1_000_000), 0)
                piece.dims[symbol] = (value, value, value)


@pytest.mark.long
@examples(80)
@given(randoms)
def test_any_dimensions_inside_their_intervals_give_a_verdict_inside_the_range(random: Random) -> None:
    dataset = by_readings_alone(random_joint(random)).dataset()
    found = fit_of(dataset)
    if found.refused is not None:
        return
    assert found.best is not None and found.worst is not None
    ranges = {
        t.way: {c.id: (c.best, c.worst) for c in t.fit.checks}
        for t in every_option(dataset, ["chain"], ["link"])
    }
    for _ in range(3):
        at_a_point = drawn(random, dataset)
        inside = fit_of(at_a_point)
        # a plain chain may turn out to have room for seals
        if inside.refused is not None:
            return
        assert inside.best is not None and inside.worst is not None
        assert found.best <= inside.best <= inside.worst <= found.worst
    inside_options = every_option(at_a_point, ["chain"], ["link"])
    for told in inside_options:
        for check in told.fit.checks:
            best, worst = ranges[told.way][check.id]
            assert best <= check.best <= check.worst <= worst, check.id


@examples(40)
@given(randoms, st.sampled_from(("sealed", "plain")), st.sampled_from(("slip", "press", "press-to-shoulder")))
def test_a_missing_dimension_leaves_room_for_any_value(random: Random, kind: str, plate_fit: str) -> None:
    complete = RandomJoint(base_pieces(kind, plate_fit))
    holed = RandomJoint(base_pieces(kind, plate_fit))
    # what is new and out of one packet is known by make, which any value at all may belie
    for joint in (complete, holed):
        joint.pieces["clip"].words["history"] = "off-once"
    for _ in range(random.randint(1, 3)):
        piece = holed.pieces[random.choice(("chain", "link", "clip", "bike", "own"))]
        if piece.dims:
            piece.dims.pop(random.choice(sorted(piece.dims)))
    found = fit_of(holed.dataset())
    unknown_at_a_value(random, holed, complete)
    filled = fit_of(holed.dataset())
    # a plain chain may turn out to have room for seals
    if filled.refused is not None:
        return
    assert (
        found.best is not None
        and found.worst is not None
        and filled.best is not None
        and filled.worst is not None
    )
    assert found.best <= filled.best and filled.worst <= found.worst


@examples(60)
@given(randoms)
def test_a_wider_interval_never_narrows_the_range(random: Random) -> None:
    dataset = by_readings_alone(random_joint(random)).dataset()
    wider = with_readings(
        dataset,
        lambda _, q: replace(
            q, low=max(q.low - random.randint(0, 50_000), 0), high=q.high + random.randint(0, 50_000)
        ),
    )
    before, after = fit_of(dataset), fit_of(wider)
    assert before.refused == after.refused
    if before.best is None or before.worst is None or after.best is None or after.worst is None:
        return
    assert after.best <= before.best
    assert before.worst <= after.worst


@examples(60)
@given(randoms)
def test_one_interval_at_a_time_never_narrows_any_check(random: Random) -> None:
    dataset = by_readings_alone(random_joint(random)).dataset()
    names = [f"{p.id} {name}" for kind in KINDS for p in getattr(dataset, kind).values() for name in p.dims]
    widened = random.choice(sorted(name for name in names if not name.endswith(WORN)))
    wider = with_readings(
        dataset,
        lambda name, q: (
            replace(q, low=max(q.low - 30_000, 0), high=q.high + 70_000) if name == widened else q
        ),
    )
    after = {t.way: t for t in every_option(wider, ["chain"], ["link"])}
    for told in every_option(dataset, ["chain"], ["link"]):
        checks = {check.id: check for check in after[told.way].fit.checks}
        for check in told.fit.checks:
            assert checks[check.id].best <= check.best <= check.worst <= checks[check.id].worst, check.id


def two_bikes(random: Random) -> RandomJoint:
    """A joint at random on two bikes; the room on each is read or not."""
    joint = random_joint(random)
    words = dict(joint.pieces["bike"].words)
    for id_ in ("bike", "bike-2"):
        room = random.choice((None, 1_500_000, 2_050_000, 3_000_000, random.randint(0, 6_000_000)))
        half = random.choice((0, 40_000))
        dims = {} if room is None else {"clr": (max(room - half, 0), room, room + half)}
        joint.pieces[id_] = Piece("bike", id_, words, dims)
    return joint


def beside_the_chain(told: Told) -> tuple[int, int]:
    """Best and worst rung of an option by how far it sticks out.

    Of the joint that runs beside a bike whose room nobody read nothing is asked: that it runs has shown that it clears."""
    checks = [check for check in told.fit.checks if check.id.startswith("stick-out")]
    best = max((check.best for check in checks), default=oracle.PROPER)
    return best, max((check.worst for check in checks), default=oracle.PROPER)


@examples(60)
@given(randoms)
def test_a_joint_on_two_bikes_is_worth_what_it_is_on_the_worse_of_them(random: Random) -> None:
    """No better and no worse, whether the room of both is read, of one or of none."""
    dataset = two_bikes(random).dataset()
    if fit_of(dataset).refused is not None:
        return
    alone = [replace(dataset, bikes={id_: bike}) for id_, bike in dataset.bikes.items()]
    ways = [every_option(each, ["chain"], ["link"]) for each in (dataset, *alone)]
    for told, *others in zip(*ways, strict=True):
        if told.fit.checks[0].worst == oracle.NO_GO:
            continue  # of another pitch nothing else is asked
        ends = [beside_the_chain(other) for other in others]
        assert beside_the_chain(told) == (max(b for b, _ in ends), max(w for _, w in ends)), told.way


@pytest.mark.long
@examples(60)
@given(randoms)
def test_whatever_room_is_read_at_last_the_verdict_lies_in_the_range(random: Random) -> None:
    """And the range is no wider than that: much room makes it as good as it could be, none as bad."""
    joint = by_readings_alone(two_bikes(random))
    joint.pieces["bike-2"].dims.clear()
    # nothing is known to clear the bike as it runs today
    joint.pieces["chain"].words |= {"own_joint": "clip-press", "own_link": "nobody-knows"}
    found = fit_of(joint.dataset())
    if found.refused is not None or found.best is None or found.worst is None or found.option is None:
        return
    beside = next((c.clearance for c in found.option.checks if c.id == "stick-out-unread"), None)
    if beside is not None and beside.low <= 0:
        return  # no further out than the riveted heads, which run there today: no room is asked for
    ends = []
    for room in (0, random.randint(0, 5_000_000), 100_000_000):
        joint.pieces["bike-2"].dims["clr"] = (room, room, room)
        filled = fit_of(joint.dataset())
        assert filled.best is not None and filled.worst is not None
        assert found.best <= filled.best <= filled.worst <= found.worst
        ends.append((filled.best, filled.worst))
    if "clr" in joint.pieces["bike"].dims:
        assert (ends[-1][0], ends[0][1]) == (found.best, found.worst)


def shuffled(random: Random, mapping: dict[str, Any]) -> dict[str, Any]:
    items = [
        (key, shuffled(random, value) if isinstance(value, dict) else value) for key, value in mapping.items()
    ]
    random.shuffle(items)
    return dict(items)


@pytest.mark.long
@examples(8)
@given(randoms)
def test_the_order_of_files_records_and_fields_changes_nothing(random: Random) -> None:
    raw = small_club(Random(5))
    before, after = checked(raw), checked(shuffled(random, dict(raw)))
    assert fit_table(before) == fit_table(after)
    assert before.data_version == after.data_version


@examples(25)
@given(randoms)
def test_pairs_do_not_disturb_each_other(random: Random) -> None:
    joint = random_joint(random)
    dataset = joint.dataset()
    both = fit_table(dataset)
    assert both == tuple(fit_table(dataset, ["chain"], [link])[0] for link in sorted(dataset.links))


@examples(300)
@given(st.integers(0, 50_000_000), st.integers(1, 900_000))
def test_millimetres_go_through_the_grammar_and_back(value: int, half: int) -> None:
    read = parse_length(f"{_mm(value)} ± {_mm(half)} mm")
    assert read.readings == (Fraction(value),)
    assert read.plus_minus == Fraction(half)


@examples(300)
@given(st.integers(0, 20_000), st.integers(1, 500))
def test_tenths_of_a_thousandth_of_an_inch_are_whole_nanometres(value: int, half: int) -> None:
    # one inch is 25.4 mm exactly (NIST SP 811), so 0.0001 in is 2540 nm
    read = parse_length(f"{value / 10_000:.4f} ± {half / 10_000:.4f} in")
    assert read.readings == (Fraction(value * 2540),)
    assert read.plus_minus == Fraction(half * 2540)
    assert read.readings[0].denominator == 1


@examples(12)
@given(st.lists(st.integers(-40, 40), min_size=6, max_size=6))
def test_a_club_that_writes_inches_gets_the_verdicts_of_one_that_writes_millimetres(steps: list[int]) -> None:
    names = (
        "bush_bore",
        "over_inner_plates",
        "between_outer_plates",
        "over_riveted_pins",
        "pin_reach",
        "pin_length",
    )
    inches = dict(zip(names, (0.2087, 0.4311, 0.5138, 0.7638, 0.5984, 0.6811), strict=True))
    values = {
        name: round(inch * 10_000) + step for (name, inch), step in zip(inches.items(), steps, strict=True)
    }
    in_inches = {name: f"{value / 10_000:.4f} ± 0.0010 in" for name, value in values.items()}
    in_mm = {name: f"{_mm(value * 2540)} ± 0.0254 mm" for name, value in values.items()}
    first, second = (checked(_club(written)) for written in (in_inches, in_mm))
    assert _plain(fit_table(first)[0]) == _plain(fit_table(second)[0])


def _mm(value: int) -> str:
    return f"{value // 1_000_000}.{value % 1_000_000:06d}"


def _club(lengths: dict[str, str]) -> dict[str, Any]:
    of_chain = {name: text for name, text in lengths.items() if name not in ("pin_reach", "pin_length")}
    of_link = {name: text for name, text in lengths.items() if name in ("pin_reach", "pin_length")}
    chain = {"size_code": "520", "kind": "sealed", "seal": "O", "own_joint": "clip-press", **of_chain}
    chain |= {"over_bush_ends": "11.25 ± 0.02 mm", "plate_thickness": "2.10 ± 0.02 mm"}
    link = {
        "size_code": "520",
        "closure": "clip",
        "plate_fit": "press",
        "made_for": "sealed",
        "condition": "new",
        "half_link": "no",
        "clip": "clip",
        **of_link,
    }
    link |= {
        "pin_diameter": "5.24 ± 0.02 mm",
        "groove_width": "1.10 ± 0.02 mm",
        "side_plate_thickness": "2.10 ± 0.02 mm",
    }
    clip = {"history": "new", "thickness": "1.00 ± 0.02 mm"}
    return {"chains": {"chain": chain}, "links": {"link": link}, "clips": {"clip": clip}, "bikes": {}}


def _plain(fit: PairFit) -> tuple[object, ...]:
    option = fit.option
    assert option is not None
    return (
        fit.best,
        fit.worst,
        option.deciding,
        option.slack,
        [(c.id, c.best, c.worst, c.clearance) for c in option.checks],
    )


# in mm: whatever holds at all is taken for on by a hand, however good the fit (common practice, no source)
CLIP_HOLDS: Mapping[str, tuple[str, str]] = {
    "gw - k": ("0", "9"), "stop - b2b": ("0", "9"), "cs - gd": ("-0.30", "0.25"), "gd - cm": ("0.10", "9"),
    "csp - pl": ("-0.30", "0.30"),
}  # fmt: skip


def dry_fit(random: Random, real: Dataset, way: Way) -> TrialFacts:
    """What a hand and a caliper see of the real parts, the plate pressed to anywhere between bush ends and clip."""
    of = {name: value[1] for name, value in dims_of(real, way).items()}
    stop = of["G"] + of["gw"] - of["k"] - of["t"]
    holds = {
        "gw - k": of["gw"] - of["k"], "stop - b2b": stop - of["b2b"], "cs - gd": of["cs"] - of["gd"],
        "gd - cm": of["gd"] - of["cm"], "csp - pl": of["csp"] - of["pl"],
    }  # fmt: skip
    enters = of["d3"] >= of["d"]
    clip_on = enters and all(
        Fraction(least) <= holds[name] <= Fraction(most) for name, (least, most) in CLIP_HOLDS.items()
    )
    seen = {"enters": "yes" if enters else "no"} | ({"clip_on": "yes"} if clip_on else {})
    words = {"chain": "chain", "link": "link", "clip": "clip", "seals": "fitted", "on": "2027-02-01", **seen}
    if not clip_on:
        return TrialFacts("trial", Trial.model_validate(words), {})
    lies = of["b2b"] + (stop - of["b2b"]) * Fraction(random.random())
    read = {"width_at_joint": lies + 2 * of["t"], "tip_stand_out": of["L"] - of["t"] - lies}
    chosen = random.sample(sorted(read), random.randint(0, 2))
    return TrialFacts("trial", Trial.model_validate(words), {name: _read(read[name]) for name in chosen})


def _read(value: Fraction) -> Quantity:
    middle = round(value * NM_PER_MM)
    return Quantity(middle - 20_000, middle, middle + 20_000, "measured")


@pytest.mark.long
@examples(60)
@given(randoms)
def test_a_trial_narrows_the_range_and_still_holds_what_was_on_the_bench(random: Random) -> None:
    """The real parts are a point of the readings; the trial sees what they do; the range must hold their verdict."""
    joint = RandomJoint(base_pieces("sealed", random.choice(("slip", "press"))))
    # a new clip is as thick everywhere as it is read, and comes with no new link
    joint.pieces["link"].words["condition"] = "fitted-once"
    del joint.pieces["clip"].dims["k0"]
    blurred = (
        ("link", "d"),
        ("link", "G"),
        ("link", "gw"),
        ("link", "gd"),
        ("clip", "k"),
        ("clip", "cs"),
        ("clip", "cm"),
    )
    for id_, symbol in blurred:
        width = random.choice((0, 90_000, 250_000))
        low, nominal, high = joint.pieces[id_].dims[symbol]
        joint.pieces[id_].dims[symbol] = (low - width, nominal, high + width)
    dataset = joint.dataset()
    real = drawn(random, dataset)
    way = next(t.way for t in every_option(real, ["chain"], ["link"]) if t.fit.seals == "fitted")
    trial = dry_fit(random, real, way)
    tried = replace(dataset, trials={"trial": trial})
    before, after = (
        next(t.fit for t in every_option(d, ["chain"], ["link"]) if t.fit.seals == "fitted")
        for d in (dataset, tried)
    )
    truth = {
        c.id: c
        for c in next(
            t.fit for t in every_option(real, ["chain"], ["link"]) if t.fit.seals == "fitted"
        ).checks
    }
    for wide, narrow in zip(before.checks, after.checks, strict=True):
        # the clip of a dry fit has been off since
        if narrow.id in ("dry-fit", "clip-history"):
            continue
        assert wide.best <= narrow.best <= truth[narrow.id].best
        assert truth[narrow.id].worst <= narrow.worst <= wide.worst
    assert after.worst >= (oracle.NO_GO if trial.record.enters is False else oracle.PROPER)
