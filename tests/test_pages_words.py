"""The sentences of a pair page: every check, every situation, with the hundredths.

Joints are the worked ones of the measuring paper (common practice, no source); the numbers in the sentences are
differences of the dimensions written here, worked by hand beside each case.
"""

import re
from collections.abc import Callable
from typing import Any

import pytest

from generator.compute.fit.clip_lost import makeshifts
from generator.compute.fit.fits import fit_table
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import ways_by_pair
from generator.model.dataset import Dataset
from generator.render.pages.readings_table import length_fields
from generator.render.say.basis import chance_sentence, evidence_sentence
from generator.render.say.categories import SENTENCES
from generator.render.say.cautions import signal_word
from generator.render.say.clearances import PHRASES
from generator.render.say.names import GROUP_WORDS, dimension_title
from generator.render.say.next_step import next_step
from generator.render.say.quantities import QUANTITIES
from generator.render.say.reasons import reasons_beside
from generator.render.say.rungs import BY_NUMBERS, meaning, not_tested, verdict_key
from generator.render.say.said import Said, figures_for, plain
from generator.render.say.why import why
from generator.validate.draft import KINDS
from tests.clubs import shelf
from tests.handbook import bodies, demo, demo_all, demo_fits
from tests.joints import Piece, base_pieces, dataset_of, nm

Pieces = dict[str, Piece]


def fit_of(pieces: Pieces) -> tuple[Dataset, PairFit]:
    dataset = dataset_of(list(pieces.values()))
    return dataset, next(fit for fit in fit_table(dataset) if fit.link == "link")


def why_of(pieces: Pieces) -> list[str]:
    return why_of_fit(*fit_of(pieces))


def why_of_fit(dataset: Dataset, fit: PairFit) -> list[str]:
    judge = Judge(dataset, bench(dataset))
    ways = ways_by_pair(judge, judge.verdicts())
    return [plain(said) for said in why(dataset, fit, ways.get((fit.chain, fit.link), ()))]


def with_dims(kind: str, plate_fit: str = "press", **dims: str) -> Pieces:
    """A worked joint with some dimensions of the link or its other parts replaced, each exact unless `low..high`."""
    pieces = base_pieces(kind, plate_fit)
    for name, text in dims.items():
        part, _, symbol = name.partition("_")
        low, _, high = text.partition("..")
        ends = (nm(low), (nm(low) + nm(high or low)) // 2, nm(high or low))
        pieces[part].dims[symbol] = ends
    return pieces


def test_every_check_with_a_number_has_words() -> None:
    asked = {rule.check or id_ for id_, rule in shelf().joint_rules.items() if rule.clearance is not None}
    assert asked - {"strength"} == set(PHRASES)


def test_every_category_has_a_sentence() -> None:
    asked = {
        (rule.check or id_, value)
        for id_, rule in shelf().joint_rules.items()
        if rule.category is not None
        for value in (*rule.rungs, *(["unknown"] if rule.category == "clip-history" else []))
    }
    # a screw link with a plate that is not its own cannot be written down
    assert asked - set(SENTENCES) <= {("screw-plate", "other")}


SITUATIONS: list[tuple[str, Callable[[], Pieces], str, list[str]]] = [
    # 5.30 - 5.34 = -0.04
    ("too big", lambda: with_dims("sealed", link_d="5.34"), "no-go", ["The pin is 0.04 mm too thick for the bush."]),
    # 5.30 - 5.10 = 0.20, proper up to 0.15
    (
        "too small",
        lambda: with_dims("sealed", link_d="5.10"),
        "get-home",
        ["The pin is 0.20 mm thinner than the bore of the bush.", "Proper takes 0.00 mm to 0.15 mm thinner"],
    ),
    # 15.20 + 1.10 - 1.00 - 2.10 - 13.05 = 0.15, with the reach known to 0.25: -0.10 to 0.40
    (
        "undecided",
        lambda: with_dims("sealed", link_G="14.95..15.45", link_L="17.60"),
        "measure-first",
        ["0.15 mm clear of it as read", "anything from 0.10 mm short of clear to 0.40 mm clear of it"],
    ),
    # 16.35 - 15.20 - 1.10 = 0.05, least 0.25
    (
        "tip land",
        lambda: with_dims("sealed", link_L="16.35"),
        "no-go",
        ["The metal beyond the groove is 0.05 mm long.", "last-resort takes at least 0.25 mm"],
    ),
    # 0.72 of 1.00
    (
        "per cent",
        lambda: with_dims("sealed", clip_k="0.72", link_gw="0.82", link_G="15.20"),
        "get-home",
        ["0.72 mm of 1.00 mm when new: 72 % left; proper takes 80 % or more, get-home takes 65 % or more"],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("name", "make", "word", "said"), SITUATIONS, ids=[case[0] for case in SITUATIONS])
def test_the_deciding_check_in_a_sentence(
    name: str, make: Callable[[], Pieces], word: str, said: list[str]
) -> None:
    pieces = make()
    assert fit_of(pieces)[1].word == word, name
    first = why_of(pieces)[0]
    assert [text for text in said if text not in first] == [], first


def test_a_missing_reading_is_named_with_its_bag_and_asked_for() -> None:
    pieces = base_pieces()
    del pieces["link"].dims["d"]
    dataset, fit = fit_of(pieces)
    assert "Not known: pin diameter of link link." in why_of(pieces)[0]
    assert plain(next_step(dataset, fit)) == (
        "Measure pin diameter of link link, which nobody has read yet; the best instrument listed reads it to within "
        "± 0.004 mm. It settles ‘Pin in bush’, unless it comes out close to a limit."
    )


def test_a_category_names_the_parts() -> None:
    pieces = base_pieces()
    pieces["clip"].words["history"] = "off-once"
    assert why_of(pieces)[0] == (
        "The clip clip has been off once and has lost some of its spring. That makes it get-home."
    )


def test_small_faults_that_add_up_are_said_first_and_counted() -> None:
    """Five groups at get-home: pin (0.20 of play), clip (off once), body (plate 1.7 of 2.1), place (0.5 behind), seal."""
    pieces = with_dims(
        "sealed", link_d="5.10", link_t="1.70", link_G="15.15", link_L="17.30", chain_b2p="11.00"
    )
    pieces["clip"].words["history"] = "off-once"
    pieces["seals"].dims["s"] = (nm("1.10"),) * 3
    fit = fit_of(pieces)[1]
    assert fit.word == "last-resort"
    assert fit.option is not None and fit.option.adds_up
    first = why_of(pieces)[0]
    assert first.startswith("No single check is worse than get-home, but small faults add up")
    groups = {check.group for check in fit.option.checks if check.worst >= 1}
    assert f"Here {len(groups)} are at get-home: " in first


def test_a_refused_pair_says_what_is_not_known() -> None:
    pieces = base_pieces()
    pieces["link"].words["condition"] = "unknown"
    dataset, fit = fit_of(pieces)
    assert why_of(pieces) == ["No verdict can be given: the condition of the link is not known."]
    assert "Find it out" in plain(next_step(dataset, fit))
    assert evidence_sentence(dataset, fit) == ""


def test_every_pair_of_the_demo_is_explained() -> None:
    ways = demo_all().ways
    for fit in demo_fits():
        said = [plain(paragraph) for paragraph in why(demo(), fit, ways.get((fit.chain, fit.link), ()))]
        assert said and all(text.strip() for text in said)
        assert not any("None" in text or "  " in text or ".." in text for text in said), said
        assert bool(plain(next_step(demo(), fit))) == (fit.best != fit.worst or fit.refused is not None)


def test_evidence_says_what_is_weakest() -> None:
    """All readings of the worked joint are measured, its pitch is published, its bands are common practice."""
    pieces = base_pieces()
    dataset, fit = fit_of(pieces)
    assert evidence_sentence(dataset, fit) == (
        "What decides (Pin in bush) rests on readings of which the weakest is measured; the limit it is held against "
        "is common practice, no source. Weaker readings bear on other checks only: published in Pitch and Clip spacing."
    )
    del pieces["link"].dims["d"]
    lacking = evidence_sentence(*fit_of(pieces))
    assert lacking.startswith("What decides (Pin in bush) lacks a reading that is not known; ")
    assert "Weaker" not in lacking


def test_the_weakest_reading_told_is_one_that_bears_on_what_decides() -> None:
    """Of every demo pair, from the checks themselves: the grade said first is the weakest of the deciding check's."""
    for fit in demo_fits():
        if fit.option is None or fit.option.adds_up:
            continue
        check, said = fit.option.deciding_check, evidence_sentence(demo(), fit)
        first = said.split(";")[0]
        if check.category is not None:
            assert "is no reading" in first
        elif check.evidence in ("measured", "stated", "published"):
            assert first.endswith(f"the weakest is {check.evidence}"), said


def test_every_check_as_grave_as_the_deciding_one_is_told_with_its_numbers() -> None:
    """The pin is too thick by 5.34 - 5.30 and only 16.35 - 15.20 - 1.10 of metal is left: both are no-go."""
    dataset, fit = fit_of(with_dims("sealed", link_d="5.34", link_L="16.35"))
    assert fit.word == "no-go" and fit.option is not None
    (group,) = reasons_beside(dataset, fit)
    assert group.lead == "No-go by these checks as well:"
    other = {"Pin in bush": "Metal left beyond the groove", "Metal left beyond the groove": "Pin in bush"}
    decides = dataset.shelf.joint_rules[fit.option.deciding_check.rule_id].title
    assert [reason.title for reason in group.checks] == [other[decides]]
    said = {reason.title: plain(reason.says) for reason in group.checks} | {
        decides: why_of_fit(dataset, fit)[0]
    }
    assert "0.04 mm too thick for the bush" in said["Pin in bush"]
    assert "0.05 mm long" in said["Metal left beyond the groove"]


def test_no_check_that_makes_the_verdict_goes_untold() -> None:
    """Each demo pair: the deciding check and those beside it are all checks of its rung, each once."""
    for fit in demo_fits():
        if fit.option is None or fit.option.worst == 0:
            continue
        told = [reason.title for group in reasons_beside(demo(), fit) for reason in group.checks]
        rules, least = demo().shelf.joint_rules, 1 if fit.option.adds_up else fit.option.worst
        grave = [rules[c.rule_id].title for c in fit.option.checks if c.worst >= least]
        decides = rules[fit.option.deciding_check.rule_id].title
        assert set(grave) <= {decides, *told}, (fit.chain, fit.link)
        assert len(set(told)) == len(told) and decides not in told
        assert all(plain(r.says).strip() for group in reasons_beside(demo(), fit) for r in group.checks)


def test_faults_that_add_up_name_their_groups() -> None:
    for fit in demo_fits():
        if fit.option is not None and fit.option.adds_up:
            first = why_of_fit(demo(), fit)[0]
            groups = {check.group for check in fit.option.checks if check.worst >= 1}
            assert len(groups) >= 4
            assert all(GROUP_WORDS[group] in first for group in groups), first


def test_nobody_is_told_to_count_on_a_bad_verdict() -> None:
    said = [meaning("measure-first", best, worst) for worst in range(4) for best in range(worst)]
    said += [line.meaning for line in verdict_key()] + [BY_NUMBERS]
    assert not [text for text in said if re.search(r"(?<!not )count (on|it)", text)]
    assert "Until then treat it as no-go." in meaning("measure-first", 0, 3)
    assert not_tested(3) == "not tested: could be no-go; do not count on it"


def test_every_number_is_named_for_what_it_is() -> None:
    """A rule of any table with a clearance, or one that borrows it from the joint's rules."""
    tables = {"joint": shelf().joint_rules, **shelf().other_rules}
    asked = {
        rule.check or id_
        for name, table in tables.items()
        if name != "clip_lost"
        for id_, rule in table.items()
        if rule.clearance is not None
    }
    assert asked - {"strength", "strip-elongation"} <= set(QUANTITIES)
    assert [QUANTITIES[id_] for id_ in ("clip-wear", "clip-floor", "plate-section")] == ["thickness"] * 3
    assert QUANTITIES["squeeze"] == "squeeze of two seals"


def test_chances_are_a_remark_and_only_where_open() -> None:
    said = [(fit, text) for fit in demo_fits() if (text := chance_sentence(fit))]
    assert said
    assert all("changes no verdict" in text and fit.best != fit.worst for fit, text in said)


def _lost(plate_fit: str, **dims: str) -> dict[str, tuple[int, int]]:
    dataset, fit = fit_of(with_dims("sealed", plate_fit, **dims))
    return {found.rule_id: (found.best, found.worst) for found in makeshifts(dataset, fit)}


@pytest.mark.parametrize(
    ("plate_fit", "dims", "expected"),
    [
        # 15.20 - 2.10 - 13.05 = 0.05
        ("press", {}, {"bare-pressed-plate": (2, 2), "wire-on-pressed-plate": (1, 1), "crimped-washer": (1, 1)}),
        # 14.80 - 2.10 - 13.05 = -0.35, the limit itself; gw 1.5 keeps the clip in reach
        ("press", {"link_G": "14.80", "link_gw": "1.20", "clip_k": "1.00"}, {"bare-pressed-plate": (2, 2)}),
        # a micrometre less
        ("press", {"link_G": "14.799", "link_gw": "1.20", "clip_k": "1.00"}, {"bare-pressed-plate": (3, 3)}),
    ],
)  # fmt: skip
def test_a_lost_clip(plate_fit: str, dims: dict[str, str], expected: dict[str, Any]) -> None:
    found = _lost(plate_fit, **dims)
    assert {id_: found[id_] for id_ in expected} == expected


def test_no_makeshift_is_better_than_the_joint_is_with_any_clip() -> None:
    told = 0
    for fit in demo_fits():
        for found in makeshifts(demo(), fit):
            assert fit.without_clip is not None
            assert found.best >= fit.without_clip[0] and found.worst >= fit.without_clip[1]
            assert found.best <= found.worst
            told += 1
    assert told > 100


def test_a_link_whose_clip_is_no_good_has_makeshifts_too() -> None:
    fit = next(fit for fit in demo_fits() if (fit.chain, fit.link) == ("white-420", "tin-12-foil"))
    assert fit.word == "no-go"
    assert makeshifts(demo(), fit)


def test_lengths_that_differ_never_look_alike() -> None:
    close = figures_for((150_000, 149_000, -50_000))
    assert [close.length(v).mm for v in (150_000, 149_000, -50_000)] == ["0.150 mm", "0.149 mm", "−0.050 mm"]
    assert figures_for((150_000, 130_000)).length(150_000).mm == "0.15 mm"


def test_signal_words_follow_harm_and_likelihood() -> None:
    """ANSI Z535.6: danger will, warning could; caution for lesser injury; notice for damage only (from memory)."""
    words = {id_: signal_word(caution) for id_, caution in shelf().cautions.items()}
    assert words["engine-off"] == "danger"
    assert words["clip-direction"] == "warning"
    assert words["steady-bike"] == "caution"
    assert words["over-pressing"] == "notice"


def test_plain_text_keeps_every_piece() -> None:
    said: Said = ("a ", figures_for((1_000_000,)).length(1_000_000), " b")
    assert plain(said) == "a 1.00 mm b"


def test_a_dry_fit_that_failed_another_way_is_told_wherever_the_verdict_is() -> None:
    fit = next(fit for fit in demo_fits() if (fit.chain, fit.link) == ("tan-520", "tin-8-solid"))
    assert fit.option is not None and fit.option.trials == ()
    (trial,) = fit.failed_otherwise
    assert (trial.id, trial.word, trial.seals) == ("tan-solid-stiff", "stiff", "fitted")
    told = "A dry fit failed with seals in (tan-solid-stiff, 2027-01-31)"
    assert told in bodies()["pairs/tan-520/tin-8-solid/"]
    note = "a dry fit failed with seals in"
    lists = ["pairs/tan-520/", "links/tin-8-solid/", "chains/tan-520/"]
    bikes = [f"bikes/{bike.id}/" for bike in demo().bikes.values() if bike.record.chain == "tan-520"]
    assert bikes and all(note in bodies()[path] for path in (*lists, *bikes))


def test_every_failed_dry_fit_of_the_demo_is_told_on_its_pair_page() -> None:
    failed = [(fit, trial) for fit in demo_fits() for trial in fit.tried if trial.failed and fit.own_page]
    assert len(failed) >= 4
    for fit, trial in failed:
        assert trial.id in bodies()[f"pairs/{fit.chain}/{fit.link}/"], trial


def test_a_dry_fit_answered_in_part_is_neither_whole_nor_nothing() -> None:
    fit = next(fit for fit in demo_fits() if (fit.chain, fit.link) == ("bench-520", "tin-14-caliper"))
    (trial,) = fit.tried
    assert (trial.word, trial.open) == ("tried-in-part", ("clip_on", "bends"))
    body = bodies()["pairs/bench-520/tin-14-caliper/"]
    assert "Nobody has tried it by hand" not in body
    assert "it was tried by hand in part (bench-caliper-fit, 2027-02-14)" in body
    assert "does the clip go on and seat in both grooves" in body


@pytest.mark.parametrize("kind", KINDS)
def test_each_reading_of_a_part_has_a_name_of_its_own(kind: str) -> None:
    """Two rows of one name, such as the room on the two sides of a bike, look as if they contradict each other."""
    titles = [dimension_title(demo(), kind, field) for field in length_fields(KINDS[kind])]
    assert len(titles) == len(set(titles))
    assert len(titles) >= (6 if kind == "bike" else 0)
