"""Pages and files of clips, seals, side plates, strips and tools: each part there, each verdict beside its name.

Outside source of the inch figures: one inch is exactly 25.4 mm (international yard and pound agreement, 1959).
"""

import json
from functools import cache
from typing import Any

import pytest
from jsonschema import Draft7Validator

from generator.compute.others.result import OtherFits
from generator.compute.others.rulebook import rules_of
from generator.compute.others.table import other_fits
from generator.model.shipped import RUNGS, Rule
from generator.render.contract.others_json import other_documents
from generator.render.downloads.files import data_files
from generator.render.downloads.table_files import tables_in
from generator.render.page import Page, Site
from generator.render.pages.parts import part_addresses, part_pages
from generator.render.site import site_facts
from generator.render.words.clearances import PHRASES
from generator.render.words.part_categories import SENTENCES
from generator.render.words.part_phrases import PART_PHRASES
from generator.render.words.part_why import part_why
from generator.render.words.said import plain
from tests.clubs import checked, exactly, unchecked
from tests.handbook import Seen, address, demo, demo_all, printed
from tests.others_club import exact_club, raw_club

STEMS = ("clips", "seals", "plates", "strips", "tools")


def demo_others() -> OtherFits:
    return demo_all().others


@cache
def pages() -> dict[str, Page]:
    return {page.path: page for page in part_pages(demo(), demo_others())}


@cache
def bodies() -> dict[str, str]:
    return printed(Site(site_facts(demo()), tuple(pages().values())))


@cache
def documents() -> dict[str, Any]:
    """Those of this page's kinds, and the schemas beside them."""
    names = other_documents(demo(), demo_others())
    files = {
        asset.path.removeprefix("data/v1/"): asset.content for asset in data_files(demo(), demo_all(), {})
    }
    wanted = (f"{folder}{name}.json" for name in names for folder in ("", "schema/"))
    return {path: json.loads(files[path]) for path in wanted}


def test_each_kind_has_a_list_and_each_part_a_page() -> None:
    wanted = {f"{stem}/" for stem in STEMS}
    wanted |= {f"{stem}/{id_}/" for stem in STEMS for id_ in getattr(demo(), stem)}
    assert set(pages()) == wanted == part_addresses(demo())


@pytest.mark.parametrize("stem", STEMS)
def test_the_list_leads_to_every_part_and_says_where_it_is_kept(stem: str) -> None:
    body = bodies()[f"{stem}/"]
    led_to = {address(f"{stem}/", link)[0] for link in Seen(body).links}
    for id_, part in getattr(demo(), stem).items():
        assert f"{stem}/{id_}/" in led_to
        if part.record.kept_in:
            assert part.record.kept_in in body


def test_tables_have_ids_of_their_own() -> None:
    ids = [table.id for page in pages().values() for table in tables_in(page.context)]
    assert len(ids) == len(set(ids))
    assert len(ids) > 80


def test_the_verdict_comes_right_after_the_first_column() -> None:
    judged = [
        table
        for page in pages().values()
        for table in tables_in(page.context)
        if any(column.kind == "verdict" for column in table.columns)
    ]
    assert len(judged) > 40
    assert all(table.columns[0].kind == "head" and table.columns[1].kind == "verdict" for table in judged)


def test_ids_on_a_page_are_used_once_and_links_lead_somewhere() -> None:
    known = (
        set(pages()) | {f"chains/{id_}/" for id_ in demo().chains} | {f"links/{id_}/" for id_ in demo().links}
    )
    for path, body in bodies().items():
        seen = Seen(body)
        assert len(seen.ids) == len(set(seen.ids)), path
        for link in seen.links:
            target, anchor = address(path, link)
            assert target in known or target.startswith("data/v1/tables/"), f"{path}: {link}"
            assert not anchor or anchor in seen.ids


def test_every_fit_of_a_part_is_in_its_table_or_ruled_out_by_name() -> None:
    for fit in demo_others().clip_links:
        body = bodies()[f"clips/{fit.id_of('clip')}/"]
        assert f"links/{fit.id_of('link')}/" in body


def test_why_is_a_sentence_with_the_hundredths() -> None:
    fits = {(f.id_of("clip"), f.id_of("link")): f for f in demo_others().clip_links}
    # groove 1.10, clip 1.00; limits 0.02 and 0.25
    said = plain(part_why(demo(), fits["clip-blue-new", "tin-1-blue"]))
    assert said.startswith("The groove is 0.10 mm wider than the clip as read")
    assert "0.02 mm" in said
    assert "0.25 mm" in said


@pytest.mark.parametrize("name", ["clip_links", "seals", "plates", "strips", "tools", "keys"])
def test_every_fit_says_why(name: str) -> None:
    for fit in getattr(demo_others(), name):
        said = plain(part_why(demo(), fit))
        assert said.endswith("."), said
        assert said[:1].isupper(), said
        assert "None" not in said
        if fit.best is not None and fit.best < fit.worst and fit.deciding_check.missing:
            assert "Not known" in said


def rules() -> dict[str, tuple[str, Rule]]:
    """Check id and whole rule of every rule of these parts, by its id."""
    whole = rules_of(demo(), "clip_link", "seal", "plate", "strip", "neighbours", "tool", "key")
    return {id_: (rule.check or id_, rule) for id_, rule in whole.items()}


@pytest.mark.parametrize("id_", sorted(rules()))
def test_every_check_has_words(id_: str) -> None:
    check, rule = rules()[id_]
    if rule.category is None:
        assert check in PART_PHRASES or check in PHRASES or check == "strip-elongation"
    else:
        # a half that never meets such parts has no sentence: links for plain chain take no seals
        never = {("chain-kind", "unknown")}
        assert {(check, word) for word in rule.rungs} - never <= SENTENCES.keys()


def test_readings_are_shown_in_both_units_with_their_evidence() -> None:
    body = bodies()["clips/clip-blue-new/"]
    # 1.00 mm / 25.4 = 0.0394 in
    assert "1.00 mm" in body
    assert "0.0394 in" in body
    assert "measured" in body


def test_what_is_not_measured_is_said() -> None:
    assert "thickness" in bodies()["seals/oring-unread/"].split("Not measured:")[1]


def test_a_tool_whose_key_is_gone_says_so_first() -> None:
    body = bodies()["tools/press-small/"]
    assert body.index("none is left") < body.index("How many")
    assert "no-go" in body[: body.index("How many")]


def test_cautions_stand_on_every_page_of_a_part() -> None:
    assert demo().shelf.cautions["manual-first"].avoid in bodies()["clips/clip-blue-new/"].replace(
        "&#39;", "'"
    )
    assert all("caution__signal" in body for path, body in bodies().items() if path.count("/") == 2)


@pytest.mark.parametrize(
    ("path", "words"),
    [
        # 15.88 mm is no exact fraction; the clip of the heavy links is written as 0.625 in, which is 5/8
        ("clips/clip-red-new/", {"5/8 in", "15.875 mm", "clip-red-new", "tin 7", "split-link clip"}),
        ("strips/strip-blue-3/", {"520", "sealed", "15.88 mm", "sweep roll"}),
        ("tools/press-pocket/", {"press-pocket", "press", "27 mm"}),
        ("seals/oring-blue/", {"1.28 mm", "oring-blue"}),
        ("plates/plate-oval/", {"1/16 in", "428"}),
    ],
)
def test_search_words(path: str, words: set[str]) -> None:
    assert words <= set(pages()[path].search)


def thinned(document: dict[str, Any]) -> dict[str, Any]:
    """Every seventh of the entries of long lists: a validator takes its time."""
    return {
        name: value[::7] if isinstance(value, list) and len(value) > 100 else value
        for name, value in document.items()
    }


def test_a_wrong_entry_breaks_its_schema() -> None:
    validator = Draft7Validator(documents()["schema/clip_links.json"])
    whole = thinned(documents()["clip_links.json"])
    for wrong in ({"best": 4}, {"word": "maybe"}, {"chain": "blue-520"}, {"checks": [{"id": "x"}]}):
        entry = whole["pairs"][0] | wrong
        assert not validator.is_valid(whole | {"pairs": [entry]}), wrong


@pytest.mark.parametrize("name", ["clip_links", "seal_fits", "plate_fits", "strip_fits", "tool_fits"])
def test_files_keep_to_their_schema(name: str) -> None:
    schema = documents()[f"schema/{name}.json"]
    Draft7Validator.check_schema(schema)
    document = documents()[f"{name}.json"]
    assert list(Draft7Validator(schema).iter_errors(thinned(document))) == []
    assert document["schema"] == f"{name}/1"
    assert document["data_version"] == demo().data_version
    assert document["as_of"] == demo().as_of.isoformat()


def test_files_hold_every_fit_sorted() -> None:
    found, others = documents(), demo_others()
    pairs = [(each["clip"], each["link"]) for each in found["clip_links.json"]["pairs"]]
    assert pairs == sorted(pairs)
    assert len(pairs) == len(others.clip_links)
    joints = [(e["seal"], e["chain"], e["links"]) for e in found["seal_fits.json"]["joints"]]
    assert joints == sorted(joints)
    assert sum(len(links) for _, _, links in joints) == len(others.seals)
    assert len(found["strip_fits.json"]["neighbours"]) == len(others.neighbours)
    assert len(found["tool_fits.json"]["keys"]) == len(others.keys)


def test_words_and_rungs_in_files_agree() -> None:
    for name, document in documents().items():
        if name.startswith("schema/"):
            continue
        for each in (
            e for part in document.values() if isinstance(part, list) for e in part if isinstance(e, dict)
        ):
            best, worst = each["best"], each["worst"]
            assert (best is None) == (worst is None) == (each["refused"] is not None)
            if best is None:
                assert each["word"] == "cannot-judge"
            else:
                assert each["word"] == (RUNGS[best] if best == worst else "measure-first")


def test_a_difference_of_elongation_is_in_per_cent() -> None:
    document = other_documents(exact_club(), other_fits(exact_club()))["strip_fits"]
    (pair,) = document["pairs"]
    check = next(each for each in pair["checks"] if each["id"] == "strip-elongation")
    assert check["clearance_mm"] is None
    # 0.1 - 0.4, each +-0.05 for what was rounded away in writing
    assert check["clearance_percent"] == {"low": -0.4, "nominal": -0.3, "high": -0.2}
    assert {edge["at_percent"] for edge in check["edges"]} == {-0.5, 0.5, -1.0, 1.0}


def test_a_club_without_these_parts_has_its_lists_all_the_same() -> None:
    raw = {**raw_club(link={"clip": None, "seals": None}), **{stem: {} for stem in STEMS}}
    dataset = exactly(unchecked(raw))
    made = part_pages(dataset, other_fits(dataset))
    assert [page.path for page in made] == [f"{stem}/" for stem in STEMS]
    assert all("written down" in body for body in printed(Site(site_facts(dataset), made)).values())


def test_free_text_is_shown_as_typed() -> None:
    hostile = "<b>tin</b> & {{ 7 * 7 }}"
    raw = raw_club()
    raw["clips"]["c10"] |= {"name": hostile, "note": hostile, "kept_in": hostile}
    dataset = checked(raw)
    made = part_pages(dataset, other_fits(dataset))
    body = printed(Site(site_facts(dataset), made))["clips/c10/"]
    assert "<b>tin" not in body
    assert body.count("&lt;b&gt;tin&lt;/b&gt; &amp; {{ 7 * 7 }}") >= 3
