"""What must hold of every meeting of parts, whatever the numbers: sound, monotone, the same rules as the joint.

The share of cases a rung gets is asserted, so that no property holds for want of cases.
"""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.compute.fit.fits import explain_pair
from generator.compute.others.clip_links import clip_link_fits
from generator.compute.others.neighbours import neighbour_fits
from generator.compute.others.plates import plate_fits
from generator.compute.others.result import NeighbourFit, PartFit
from generator.compute.others.seals import seal_fits
from generator.compute.others.strips import strip_fits
from generator.compute.others.table import other_fits
from generator.compute.others.tools import tool_fits
from generator.model.club import RuleOverride
from generator.model.dataset import Dataset, Part
from generator.model.quantity import NM_PER_MM, Quantity
from generator.rules.table import rules_of
from tests.clubs import KIND_OF, shelf
from tests.others_club import exact_club

Judged = PartFit | NeighbourFit
# wear allows the pins more play by what it surely is, so that knowing it better may allow more
KEPT = {"neighbours": "elongation"}
Change = Callable[[Quantity], Quantity]
RELATIONS: Mapping[str, Callable[[Dataset], tuple[Judged, ...]]] = {
    "clip-link": clip_link_fits,
    "seal": seal_fits,
    "plate": plate_fits,
    "strip": strip_fits,
    "neighbours": lambda dataset: neighbour_fits(dataset, strip_fits(dataset), clip_link_fits(dataset)),
    "tool": tool_fits,
}
# of each relation: which parts come in many copies, and how many
CROWDS: Mapping[str, Mapping[str, int]] = {
    "clip-link": {"clips": 12, "links": 4},
    "seal": {"seals": 16, "chains": 3},
    "plate": {"plates": 40, "links": 1},
    "strip": {"strips": 16, "chains": 3},
    "neighbours": {"strips": 3, "links": 8},
    "tool": {"tools": 16, "chains": 3},
}
# mm; seals bear more, and what is close to a limit from the start less
USUAL_SIZES = (0.05, 0.15, 0.4)
SIZES = {"seal": (0.1, 0.4, 0.9), "tool": (0.05, 0.15, 1.0)}
TIGHT = {"jaw_opening": "19.95", "pin_diameter": "5.10"}
BASE = exact_club(tool=TIGHT)
FEW = settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
SEEDS = st.integers(0, 2**32)


def crowd(relation: str, seed: int) -> Dataset:
    """Copies of the base parts, some dimensions moved, some blurred, each part by a measure of its own.

    No clip is out of the packet of a link: that it fits is then known by make, which no moved dimension may belie."""
    random = Random(seed)
    parts: dict[str, Any] = {}
    for stem, count in CROWDS[relation].items():
        base = next(iter(getattr(BASE, stem).values()))
        if stem == "links":
            base = replace(base, record=base.record.model_copy(update={"clip": None}))
        sizes = SIZES.get(relation, USUAL_SIZES)
        copies = [
            _moved(base, base.id if n == 0 else f"{base.id}-{n:02}", sizes, random) for n in range(count)
        ]
        kept = {id_: part for id_, part in getattr(BASE, stem).items() if part.record != base.record}
        parts[stem] = kept | {part.id: part for part in copies}
    return replace(BASE, **parts)


def _moved(part: Part[Any], id_: str, sizes: Sequence[float], random: Random) -> Part[Any]:
    size, width = random.choice(sizes), random.choice((0.0, 0.01, 0.1))

    def move(quantity: Quantity) -> Quantity:
        if random.random() < 0.6:
            return quantity
        nominal = max(quantity.nominal + round(random.uniform(-size, size) * NM_PER_MM), 1)
        low, high = (round(random.uniform(0, width) * NM_PER_MM) for _ in range(2))
        return Quantity(max(nominal - low, 0), nominal, nominal + high, quantity.evidence)

    return replace(part, id=id_, dims={field: move(quantity) for field, quantity in part.dims.items()})


def with_dims(dataset: Dataset, change: Change, but: str = "") -> Dataset:
    """Every dimension of every part changed, but one."""
    parts: dict[str, Any] = {
        stem: {
            id_: replace(
                part, dims={field: q if field == but else change(q) for field, q in part.dims.items()}
            )
            for id_, part in getattr(dataset, stem).items()
        }
        for stem in KIND_OF
    }
    return replace(dataset, **parts)


def ranges(fits: tuple[Judged, ...]) -> dict[tuple[str, ...], tuple[int, int]]:
    """By the ids of the parts that meet."""
    return {
        _ids(fit): (fit.best, fit.worst) for fit in fits if fit.best is not None and fit.worst is not None
    }


def _ids(fit: Judged) -> tuple[str, ...]:
    if isinstance(fit, NeighbourFit):
        return fit.strip, fit.chain, fit.link
    return tuple(part.id for part in fit.parts)


@pytest.mark.parametrize("relation", sorted(RELATIONS))
@FEW
@given(seed=SEEDS, more=st.integers(1, 400_000))
def test_a_wider_interval_never_narrows(relation: str, seed: int, more: int) -> None:
    dataset = crowd(relation, seed)
    wider = with_dims(
        dataset, lambda q: replace(q, low=max(q.low - more, 0), high=q.high + more), KEPT.get(relation, "")
    )
    before, after = ranges(RELATIONS[relation](dataset)), ranges(RELATIONS[relation](wider))
    assert before.keys() <= after.keys()
    for ids, (best, worst) in before.items():
        assert after[ids][0] <= best
        assert after[ids][1] >= worst


@pytest.mark.parametrize("relation", sorted(RELATIONS))
@FEW
@given(seed=SEEDS)
def test_any_true_dimensions_give_a_verdict_inside_the_range(relation: str, seed: int) -> None:
    dataset, random = crowd(relation, seed), Random(seed + 1)

    def true(quantity: Quantity) -> Quantity:
        value = random.choice((quantity.low, quantity.high, random.randint(quantity.low, quantity.high)))
        return replace(quantity, low=value, nominal=value, high=value)

    known = with_dims(dataset, true, KEPT.get(relation, ""))
    said, found = ranges(RELATIONS[relation](dataset)), ranges(RELATIONS[relation](known))
    assert found.keys() <= said.keys()
    for ids, (best, worst) in found.items():
        assert said[ids][0] <= best
        assert worst <= said[ids][1]


def test_a_check_that_opens_again_by_a_coarser_reading_stops_nothing() -> None:
    """The groove diameter of this crowd is wider to one side than to the other."""
    assert clip_link_fits(crowd("clip-link", 5_921_421))


@pytest.mark.parametrize("relation", sorted(RELATIONS))
def test_the_cases_of_these_properties_reach_every_rung(relation: str) -> None:
    fits = [fit for seed in range(6) for fit in RELATIONS[relation](crowd(relation, seed))]
    counts = Counter(fit.word for fit in fits)
    shares = {word: round(100 * count / len(fits)) for word, count in sorted(counts.items())}
    print(relation, {word: f"{share} %" for word, share in shares.items()})
    for word in ("proper", "get-home", "no-go", "measure-first"):
        # of a tool only the room in its jaws has a rung between proper and no-go
        assert shares.get(word, 0) >= (2 if (relation, word) == ("tool", "get-home") else 5), shares


def test_dropping_a_reading_only_opens() -> None:
    whole = other_fits(BASE)
    for stem, field in (("clips", "thickness"), ("links", "side_plate_thickness"), ("strips", "bush_bore")):
        parts = {
            id_: replace(part, dims={f: q for f, q in part.dims.items() if f != field})
            for id_, part in getattr(BASE, stem).items()
        }
        less = other_fits(replace(BASE, **{stem: parts}))  # type: ignore[arg-type]
        for name in ("clip_links", "seals", "plates", "strips", "tools"):
            before, after = ranges(getattr(whole, name)), ranges(getattr(less, name))
            assert before.keys() == after.keys()
            assert all(
                after[ids][0] <= best and worst <= after[ids][1] for ids, (best, worst) in before.items()
            )


SHARED = [
    (file, id_, rule)
    for file, rules in shelf().other_rules.items()
    for id_, rule in rules.items()
    if rule.same_as is not None
]


@pytest.mark.parametrize(("file", "id_"), [(file, id_) for file, id_, _ in SHARED])
def test_a_rule_that_is_the_joints_has_no_numbers_of_its_own(file: str, id_: str) -> None:
    rule = shelf().other_rules[file][id_]
    assert rule.same_as is not None
    joint = shelf().joint_rules[rule.same_as]
    assert (rule.clearance, rule.proper, rule.get_home, rule.last_resort) == (None, None, None, None)
    assert (rule.category, rule.rungs, rule.when) == (None, {}, {})
    assert (rule.group, rule.source, rule.evidence) == (joint.group, joint.source, joint.evidence)
    filled = rules_of(BASE, file)[id_]
    assert filled.check == (joint.check or rule.same_as)
    assert (filled.clearance, filled.proper, filled.rungs) == (joint.clearance, joint.proper, joint.rungs)


def test_clips_refer_to_every_clip_rule_of_the_joint() -> None:
    referred = {rule.same_as for rule in shelf().other_rules["clip_link"].values()}
    of_the_joint = {id_ for id_, rule in shelf().joint_rules.items() if rule.group == "clip"}
    assert of_the_joint <= referred


def test_rule_ids_are_used_once() -> None:
    """A club's override names a rule by its id alone."""
    tables = [shelf().joint_rules, *shelf().other_rules.values()]
    ids = [id_ for table in tables for id_ in table]
    assert len(ids) == len(set(ids))


def test_the_club_may_override_these_rules_too() -> None:
    override = {"because": "Ours are worn thin.", "get-home": {"low": "-0.60"}}
    dataset = exact_club(plate={"thickness": "2.5"})
    (before,) = plate_fits(dataset)
    (after,) = plate_fits(replace(dataset, overrides={"plate-stop": RuleOverride.model_validate(override)}))
    assert (before.word, after.word) == ("no-go", "get-home")


def test_the_checks_of_a_clip_are_those_of_the_joint_it_makes() -> None:
    """A second way: the same clips as options of whole joints."""
    dataset = crowd("clip-link", 7)
    fits = {(f.id_of("clip"), f.id_of("link")): f for f in clip_link_fits(dataset)}
    compared = 0
    for link in dataset.links:
        for option in explain_pair(dataset, "base", link)[1]:
            checks = {check.id: check for check in option.checks}
            for check in fits[option.clip, link].checks if option.clip is not None else ():
                joint = checks[check.id]
                assert (joint.best, joint.worst, joint.clearance) == (
                    check.best,
                    check.worst,
                    check.clearance,
                )
                compared += 1
    assert compared >= 300


@pytest.mark.parametrize("relation", ["clip-link", "plate", "strip", "tool"])
def test_order_of_records_does_not_matter(relation: str) -> None:
    dataset = crowd(relation, 3)
    backwards: Any = {
        stem: dict(reversed(getattr(dataset, stem).items()))
        for stem in ("clips", "links", "plates", "strips", "tools")
    }
    one = {_ids(fit): fit for fit in RELATIONS[relation](dataset)}
    other = {_ids(fit): fit for fit in RELATIONS[relation](replace(dataset, **backwards))}
    assert one == other
