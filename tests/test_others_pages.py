"""Pages of clips, seals, side plates, strips and tools: each part there, each verdict beside its name.

Outside source of the inch figures: one inch is exactly 25.4 mm (international yard and pound agreement, 1959).
"""

import re
from functools import cache

import pytest

from generator.compute.all_fits import all_fits
from generator.model.kinds import KEPT, KINDS
from generator.render.base.page import Page, Site
from generator.render.pages.book import book_of
from generator.render.pages.parts import part_pages
from generator.render.say.around import part_around
from generator.render.say.checks import limits_in_short, told
from generator.render.say.part_why import part_why
from generator.render.say.said import plain
from generator.render.site import site_facts
from tests.clubs import checked, exactly, unchecked
from tests.handbook import Seen, address, demo, demo_book, demo_others, printed
from tests.others_club import raw_club

STEMS = tuple(KINDS[kind].stem for kind in KEPT if kind != "link")


@cache
def pages() -> dict[str, Page]:
    return {page.path: page for page in part_pages(demo_book())}


@cache
def bodies() -> dict[str, str]:
    return printed(Site(site_facts(demo()), tuple(pages().values())))


def test_each_kind_has_a_list_and_each_part_a_page() -> None:
    wanted = {f"{stem}/" for stem in STEMS}
    wanted |= {f"{stem}/{id_}/" for stem in STEMS for id_ in getattr(demo(), stem)}
    assert set(pages()) == wanted


@pytest.mark.parametrize("stem", STEMS)
def test_the_list_leads_to_every_part_and_says_where_it_is_kept(stem: str) -> None:
    body = bodies()[f"{stem}/"]
    led_to = {address(f"{stem}/", link)[0] for link in Seen(body).links}
    for id_, part in getattr(demo(), stem).items():
        assert f"{stem}/{id_}/" in led_to
        if part.record.kept_in:
            assert part.record.kept_in in body


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


def test_a_bag_label_of_a_part_is_one_label() -> None:
    """A chain with all its links in one label does not break, and runs off every screen."""
    known = {*demo().chains, *demo().links, *demo().clips, *demo().seals, *demo().plates, *demo().strips}
    known |= {*demo().tools, *demo().bikes}
    labels = re.findall(r'class="tag">([^<]*)<', bodies()["seals/xring-black/"])
    assert len(labels) > 20 and [label for label in labels if label not in known] == []


def test_why_is_a_sentence_with_the_hundredths() -> None:
    fits = {(f.id_of("clip"), f.id_of("link")): f for f in demo_others().clip_links}
    # groove 1.10, clip 1.00; limits 0.02 and 0.25
    check = next(c for c in fits["clip-blue-new", "tin-1-blue"].checks if c.id == "clip-entry")
    around = part_around(demo(), fits["clip-blue-new", "tin-1-blue"])
    assert plain(told(check, around)) == "Groove is 0.10 mm wider than the clip."
    assert plain(limits_in_short(check, around)) == "0.02 to 0.25 mm"


@pytest.mark.parametrize("name", ["clip_links", "seals", "plates", "strips", "tools", "keys"])
def test_every_fit_says_why(name: str) -> None:
    for fit in getattr(demo_others(), name):
        said = plain(part_why(demo(), fit))
        assert said.endswith("."), said
        assert said[:1].isupper() or said[:1].isdigit(), said
        assert "None" not in said
        if fit.best is not None and fit.best < fit.worst and fit.deciding_check.missing:
            assert "not known" in said.lower()


def test_readings_are_shown_in_both_units_with_their_evidence() -> None:
    body = bodies()["clips/clip-blue-new/"]
    # 1.00 mm / 25.4 = 0.0394 in
    assert "<b>1.00</b> mm" in body
    assert "0.0394 in" in body
    assert "measured" in body


def test_what_is_not_measured_is_said() -> None:
    assert "thickness" in bodies()["seals/oring-unread/"].split("Not measured:")[1]


def test_a_tool_whose_key_is_gone_says_so_first() -> None:
    body = bodies()["tools/press-small/"]
    answer = body[body.index("data-answer") : body.index("</section>")]
    assert "none is left" in answer and "no-go" in answer


def test_a_plate_whose_state_is_said_to_be_no_go_goes_on_no_link() -> None:
    said = {id_ for id_ in demo().plates if ": no-go" in bodies()[f"plates/{id_}/"]}
    assert said
    for fit in demo_others().plates:
        check = next((check for check in fit.checks if check.id == "plate-condition"), None)
        if check is not None:
            assert (check.best == 3) == (fit.id_of("plate") in said)
        if fit.id_of("plate") in said:
            assert fit.best in (3, None)


def test_cautions_stand_on_every_page_of_a_part() -> None:
    assert demo().shelf.cautions["manual-first"].avoid in bodies()["clips/clip-blue-new/"].replace(
        "&#39;", "'"
    )
    assert all("hazard__word" in body for path, body in bodies().items() if path.count("/") == 2)


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


def test_a_club_without_these_parts_has_its_lists_all_the_same() -> None:
    raw = {**raw_club(link={"clip": None, "seals": None}), **{stem: {} for stem in STEMS}}
    dataset = exactly(unchecked(raw))
    made = tuple(part_pages(book_of(dataset, all_fits(dataset))))
    assert [page.path for page in made] == [f"{stem}/" for stem in STEMS]
    assert all("written down" in body for body in printed(Site(site_facts(dataset), made)).values())


def test_free_text_is_shown_as_typed() -> None:
    hostile = "<b>tin</b> & {{ 7 * 7 }}"
    raw = raw_club()
    raw["clips"]["c10"] |= {"name": hostile, "note": hostile, "kept_in": hostile}
    dataset = checked(raw)
    made = tuple(part_pages(book_of(dataset, all_fits(dataset))))
    body = printed(Site(site_facts(dataset), made))["clips/c10/"]
    assert "<b>tin" not in body
    assert body.count("&lt;b&gt;tin&lt;/b&gt; &amp; {{ 7 * 7 }}") >= 3
