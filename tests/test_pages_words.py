"""The sentences of the club's own pages: every check, every situation, with the hundredths.

Joints are the worked ones of the measuring paper (common practice, no source); the numbers in the sentences are
differences of the dimensions written here, worked by hand beside each case.
"""

import re
import string
from collections.abc import Callable
from typing import Any

import pytest

from generator.compute.fit.clip_lost import makeshifts
from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from generator.model.kinds import MODELS
from generator.model.shipped import Rule
from generator.render.base.lengths import ShownLength
from generator.render.explain_text import explain_text
from generator.render.pages.readings_table import length_fields
from generator.render.say.around import joint_around
from generator.render.say.basis import chance_sentence, evidence_sentence
from generator.render.say.cautions import signal_word
from generator.render.say.checks import check_said, found_in_short, limits_in_short, rule_of
from generator.render.say.days import days_in_words
from generator.render.say.fitting import fitting_steps, turns_of_the_wheel
from generator.render.say.names import dimension_title
from generator.render.say.panel import panel_says
from generator.render.say.reasons import reasons, short_reason
from generator.render.say.rungs import UNTRIED, meaning, not_tested, verdict_key
from generator.render.say.said import Said, figures_for, plain
from tests.clubs import DAY, shelf
from tests.handbook import bodies, demo, demo_fits
from tests.joints import Piece, base_pieces, dataset_of, nm

Pieces = dict[str, Piece]
# what stands in braces in the words of a rule
FACTS = {
    "n", "link_code", "chain_code", "made_for", "chain_kind", "chain_seal", "seals", "clip", "history", "elongation",
    "wear_limit", "wear_rule", "unmeasured", "trials",
}  # fmt: skip


def fit_of(pieces: Pieces) -> tuple[Dataset, PairFit]:
    dataset = dataset_of(list(pieces.values()))
    return dataset, next(fit for fit in fit_table(dataset) if fit.link == "link")


def why_of(pieces: Pieces) -> list[str]:
    return [plain(reason.says) for reason in reasons(*fit_of(pieces))]


def with_dims(kind: str, plate_fit: str = "press", **dims: str) -> Pieces:
    """A worked joint with some dimensions of the link or its other parts replaced, each exact unless `low..high`."""
    pieces = base_pieces(kind, plate_fit)
    for name, text in dims.items():
        part, _, symbol = name.partition("_")
        low, _, high = text.partition("..")
        ends = (nm(low), (nm(low) + nm(high or low)) // 2, nm(high or low))
        pieces[part].dims[symbol] = ends
    return pieces


def every_rule() -> dict[str, Rule]:
    tables = {"joint": shelf().joint_rules, **shelf().other_rules}
    return {id_: rule for name, table in tables.items() if name != "clip_lost" for id_, rule in table.items()}


@pytest.mark.parametrize("id_", sorted(every_rule()))
def test_every_rule_carries_its_own_words(id_: str) -> None:
    """A number in a sentence for more and for less, a category in one for each of its words; names are known ones."""
    rule = every_rule()[id_]
    words = rule.words or (shelf().joint_rules[rule.same_as].words if rule.same_as else {})
    assert words, "a rule without words is said by its title alone"
    if rule.category is not None:
        assert set(rule.rungs) <= set(words)
    elif not rule.same_as:
        assert {"more", "percent", "force"} & set(words)
    for said in words.values():
        named = {name for _, name, _, _ in string.Formatter().parse(said) if name is not None}
        assert named <= FACTS, said
        assert said.endswith(".") or said == "{history}"


SITUATIONS: list[tuple[str, Callable[[], Pieces], str, list[str]]] = [
    # 5.30 - 5.34 = -0.04
    ("too big", lambda: with_dims("sealed", link_d="5.34"), "no-go", ["Pins are 0.04 mm too thick for the bush"]),
    # 5.30 - 5.10 = 0.20, proper up to 0.15 and what wear adds to it
    (
        "too small",
        lambda: with_dims("sealed", link_d="5.10"),
        "get-home",
        ["Pins enter the bush with 0.20 mm free; proper takes 0.00 to 0.1"],
    ),
    # 15.20 + 1.10 - 1.00 - 2.10 - 13.05 = 0.15, with the reach known to 0.25: -0.10 to 0.40
    (
        "undecided",
        lambda: with_dims("sealed", link_G="14.95..15.45", link_L="17.60"),
        "measure-first",
        ["Clip clears the plate by 0.15 mm", "It could be −0.10 to 0.40 mm."],
    ),
    # 16.35 - 15.20 - 1.10 = 0.05, proper from 0.50
    (
        "tip land",
        lambda: with_dims("sealed", link_L="16.35"),
        "no-go",
        ["0.05 mm of pin stands beyond the groove; proper takes 0.50 mm or more."],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("name", "make", "word", "said"), SITUATIONS, ids=[case[0] for case in SITUATIONS])
def test_the_deciding_check_in_a_sentence(
    name: str, make: Callable[[], Pieces], word: str, said: list[str]
) -> None:
    dataset, fit = fit_of(make())
    assert fit.word == word, name
    row, page = plain(short_reason(dataset, fit)), " ".join(why_of(make()))
    assert [text for text in said if text not in row or text not in page] == [], row


def test_the_reason_of_proper_is_the_whole_chain_of_it() -> None:
    """The worked joint: 5.30 - 5.24, seat 13.05 and two plates of 2.10, 15.20 + 1.10 - 1.00 - 2.10 - 13.05, seals of
    1.28 between 13.05 and 10.95: 1 - 2.10 / 2.56, and 17.30 - (13.05 + 19.40) / 2."""
    dataset, fit = fit_of(base_pieces())
    assert fit.word == "proper"
    told = {reason.place: plain(reason.says) for reason in reasons(dataset, fit) if reason.place}
    assert told["pin"] == "Pins enter the bush with 0.06 mm free."
    assert told["plate"] == "Plate level with its neighbours at 17.25 mm."
    assert told["clip"] == "Clip clears the plate by 0.15 mm."
    assert told["seals"] == "Seals are squeezed 18 %."
    assert told["room"].startswith("Sticks out 1.07 mm beyond the riveted heads.") or "1.08" in told["room"]
    assert all(reason.verdict is None for reason in reasons(dataset, fit))


def test_the_width_to_press_to_is_seat_and_both_plates() -> None:
    """13.05 + 2.10 + 2.10 = 17.25, as the neighbours; a shoulder at 13.35 makes 17.55; nothing presses a slide-on plate."""
    _, fit = fit_of(base_pieces())
    width, level = fit.press_to, fit.beside
    assert width is not None and level is not None
    assert (width.nominal, level.nominal) == (17_250_000, 17_250_000)
    width = fit_of(with_dims("sealed", "press-to-shoulder", link_M="13.35"))[1].press_to
    assert width is not None and width.nominal == 17_550_000
    assert fit_of(base_pieces("sealed", "slip"))[1].press_to is None


def test_a_clip_that_stops_deeper_sets_the_width() -> None:
    """15.00 + 1.10 - 1.00 - 2.10 = 13.00 lies inside 13.05: 13.00 + 4.20."""
    width = fit_of(with_dims("sealed", link_G="15.00", link_L="17.60"))[1].press_to
    assert width is not None and width.nominal == 17_200_000


def test_a_missing_reading_is_named_with_its_bag() -> None:
    pieces = base_pieces()
    del pieces["link"].dims["d"]
    assert "Not known: pin diameter of link link." in why_of(pieces)


def test_a_category_names_the_parts() -> None:
    pieces = base_pieces()
    pieces["clip"].words["history"] = "off-once"
    assert "The clip clip has been off once and has lost some of its spring." in why_of(pieces)


def test_small_faults_that_add_up_are_said_first() -> None:
    """Five groups at get-home: pin (0.20 of play), clip (off once), body (plate 1.7 of 2.1), place (0.5 behind), seal."""
    pieces = with_dims(
        "sealed", link_d="5.10", link_t="1.70", link_G="15.15", link_L="17.30", chain_b2p="11.00"
    )
    pieces["clip"].words["history"] = "off-once"
    pieces["seals"].dims["s"] = (nm("1.10"),) * 3
    fit = fit_of(pieces)[1]
    assert fit.word == "last-resort"
    assert fit.option is not None and fit.option.adds_up
    assert why_of(pieces)[0].startswith("Small faults add up to last-resort: ")


def test_a_refused_pair_says_what_is_not_known() -> None:
    pieces = base_pieces()
    pieces["link"].words["condition"] = "unknown"
    _, fit = fit_of(pieces)
    assert fit.refused == "the condition of the link is not known"
    assert why_of(pieces) == [f"No verdict can be given: {fit.refused}."]
    assert panel_says(fit).startswith("The condition of the link is not known. Look at it")


def test_every_pair_of_the_demo_is_explained() -> None:
    for fit in demo_fits():
        said = [plain(reason.says) for reason in reasons(demo(), fit)]
        said += [plain(short_reason(demo(), fit)), panel_says(fit)]
        assert said and all(text.strip() for text in said)
        assert not any("None" in text or "  " in text or ".." in text or "{" in text for text in said), said


def test_no_check_that_makes_the_verdict_goes_untold() -> None:
    """Each demo pair: every check of the gravest rung is named, in full or by its title."""
    for fit in demo_fits():
        option = fit.option
        if option is None or option.worst == 0:
            continue
        told = " ".join(plain(reason.says) for reason in reasons(demo(), fit)).lower()
        around = joint_around(demo(), fit.chain, fit.link, option)
        grave = max(check.worst for check in option.checks)
        for check in option.checks:
            if check.worst == grave and not check.missing:
                said = plain(check_said(check, around)).removesuffix(".").lower()
                title = rule_of(demo(), check.rule_id).title.lower()
                assert said in told or title in told, (fit.chain, fit.link, check.id)


def test_numbers_of_a_check_are_said_with_their_limits() -> None:
    dataset, fit = fit_of(base_pieces())
    assert fit.option is not None
    around = joint_around(dataset, fit.chain, fit.link, fit.option)
    by_id = {check.id: check for check in fit.option.checks}
    assert plain(found_in_short(by_id["pin-entry"], around)) == "0.06 mm"
    assert plain(limits_in_short(by_id["pin-entry"], around)).startswith("0.00 to 0.1")
    assert plain(found_in_short(by_id["squeeze"], around)) == "18 %"
    assert plain(limits_in_short(by_id["squeeze"], around)) == "8 to 30 %"
    assert plain(limits_in_short(by_id["tip-land"], around)) == "0.50 mm or more"
    assert any(isinstance(piece, ShownLength) for piece in limits_in_short(by_id["tip-land"], around))


def test_a_page_that_was_tried_never_says_dry_fit_it() -> None:
    tried = [
        fit for fit in demo_fits() if fit.own_page and fit.strength == "dry-fitted" and fit.word == "proper"
    ]
    assert tried
    for fit in tried:
        # the caution that stands over all says it to everybody
        body = bodies()[f"pairs/{fit.chain}/{fit.link}/"].split('id="cautions"')[0].lower()
        assert "dry-fit" not in body and "nobody has tried" not in body, (fit.chain, fit.link)
        assert "tried by hand" in body


def test_no_word_of_the_workshop_floor_stands_on_a_page() -> None:
    """Part of the trade's own complaint: riders do not say these (common practice, no source)."""
    for path, body in bodies().items():
        if path.startswith(("bikes/", "pairs/", "chains/", "links/")) or path == "clip-lost/":
            text = re.sub("<[^>]*>", " ", body)
            assert not re.search(
                r"\b(yawns?|rungs?|backing|slip link|O-seals?|X-seals?)\b", _without_names(text)
            ), path


def _without_names(text: str) -> str:
    """What people wrote themselves stays as they wrote it."""
    parts = (*demo().links.values(), *demo().clips.values(), *demo().seals.values(), *demo().chains.values())
    typed = {each for part in parts for each in (part.record.name, part.record.note) if each}
    pieces = {piece for each in typed for piece in (each, each.split(", ")[0])}
    # the longest first, as one name may be the beginning of another
    for piece in sorted(pieces, key=lambda each: (-len(each), each)):
        text = text.replace(piece, "").replace(piece[:1].upper() + piece[1:], "")
    return text


def test_how_to_fit_names_what_is_done() -> None:
    dataset, fit = fit_of(base_pieces())
    said = " ".join(fitting_steps(dataset, fit))
    assert "Two seals on the pins before the link goes in, two after it." in said
    assert "Press the plate" in said and "closed end leading" in said
    dataset, fit = fit_of(with_dims("sealed", link_L="16.35"))
    assert fit.word == "no-go" and fitting_steps(dataset, fit) == ()


def test_the_wheel_turns_until_the_whole_chain_has_gone_round() -> None:
    """114 pitches over 50 teeth are 2.28 turns, so three; 112 over 48 are 2.33."""
    assert turns_of_the_wheel(demo().bikes["b01"]) == 3
    assert turns_of_the_wheel(demo().bikes["b02"]) == 3


def test_evidence_says_what_is_weakest() -> None:
    """All readings of the worked joint are measured, its pitch is published, its bands are common practice."""
    pieces = base_pieces()
    dataset, fit = fit_of(pieces)
    assert evidence_sentence(dataset, fit).startswith(
        "What decides (Pin in bush) rests on readings of which the weakest is measured; the limit it is held against "
        "is common practice, no source."
    )
    del pieces["link"].dims["d"]
    lacking = evidence_sentence(*fit_of(pieces))
    assert lacking.startswith("What decides (Pin in bush) lacks a reading that is not known; ")


def test_nobody_is_told_to_count_on_a_bad_verdict() -> None:
    said = [meaning("measure-first", best, worst) for worst in range(4) for best in range(worst)]
    said += [line.meaning for line in verdict_key()] + [*UNTRIED.values()]
    assert not [text for text in said if re.search(r"(?<!not )count (on|it)", text)]
    assert not_tested(3) == "not tested: could be no-go; do not count on it"


def test_a_verdict_that_stands_counts_as_its_worst() -> None:
    fit = next(fit for fit in demo_fits() if fit.word == "measure-first" and fit.worst == 3)
    assert panel_says(fit) == "Not tested: could be no-go. Do not count on it."
    assert panel_says(fit, stands=True).startswith("Counts as no-go: ")


def test_chances_are_a_remark_and_only_where_open() -> None:
    said = [text for fit in demo_fits() if (text := chance_sentence(fit))]
    assert all("changes no verdict" in text for text in said)
    assert not [fit for fit in demo_fits() if fit.best == fit.worst and chance_sentence(fit)]


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
            if fit.without_clip is None:
                continue
            assert found.best >= fit.without_clip[0] and found.worst >= fit.without_clip[1]
            assert found.best <= found.worst
            told += 1
    assert told > 50


def test_lengths_that_differ_never_look_alike() -> None:
    close = figures_for((150_000, 149_000, -50_000))
    assert [close.length(v).mm for v in (150_000, 149_000, -50_000)] == ["0.150 mm", "0.149 mm", "−0.050 mm"]


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


def test_days_are_said_as_people_say_them() -> None:
    assert days_in_words([DAY, DAY]) == "1 March 2027"


def test_every_failed_dry_fit_of_the_demo_is_told_on_its_pair_page() -> None:
    failed = [(fit, trial) for fit in demo_fits() for trial in fit.tried if trial.failed and fit.own_page]
    assert len(failed) >= 4
    for fit, trial in failed:
        assert trial.id in bodies()[f"pairs/{fit.chain}/{fit.link}/"], trial


def test_a_dry_fit_answered_in_part_is_neither_whole_nor_nothing() -> None:
    partly = [fit for fit in demo_fits() if fit.own_page and any(trial.open for trial in fit.tried)]
    assert partly
    for fit in partly:
        body = bodies()[f"pairs/{fit.chain}/{fit.link}/"]
        assert "Nobody has tried it by hand" not in body
        assert "Tried by hand in part" in body and "Not answered yet" in body


@pytest.mark.parametrize("kind", MODELS)
def test_each_reading_of_a_part_has_a_name_of_its_own(kind: str) -> None:
    """Two rows of one name, such as the room on the two sides of a bike, look as if they contradict each other."""
    titles = [dimension_title(demo(), kind, field) for field in length_fields(MODELS[kind])]
    assert len(titles) == len(set(titles))
    assert len(titles) >= (6 if kind == "bike" else 0)


def test_a_riveted_joint_is_told_its_flare_and_a_washer_where_it_goes() -> None:
    """The 5.50 to 5.80 mm of a 520: service manuals, as verdicts of the model print them."""
    fits = {(fit.chain, fit.link): fit for fit in demo_fits()}
    riveted = one_screen(fits["tan-520", "tin-8-tan"])
    assert "to 5.50 to 5.80 mm" in riveted and "never under" in riveted and "too far" in riveted
    washers = next(fit for fit in demo_fits() if fit.option and fit.option.spacer and fit.best != 3)
    assert washers.option and f"A washer of {washers.option.spacer} on each pin" in one_screen(washers)


def one_screen(fit: PairFit) -> str:
    return " ".join(explain_text(demo(), fit, None).split())
