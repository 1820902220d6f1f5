"""The club's own pages: every pair can be reached, every link leads somewhere, every verdict is the engine's."""

import json
from collections import Counter
from html import unescape

import pytest

from generator.compute.next_act import next_act
from generator.model.shipped import RUNGS
from generator.render.base.routes import pair_route
from generator.render.base.verdicts import ShownVerdict
from generator.render.pages import all_pairs
from generator.render.pages.all_pairs import all_pairs_page
from generator.render.say.joint import clip_short
from generator.site.content import site_of
from tests.clubs import checked
from tests.handbook import (
    PAIR_SECTIONS,
    bodies,
    demo,
    demo_all,
    demo_book,
    demo_fits,
    demo_site,
    led_to,
    printed,
    seen,
)
from tests.page_tables import tables_in

# what hand-written pages hold; the crawl of the built handbook looks at those
WRITTEN_ANCHORS = {("safety/", "clip-goes"), ("cards/printing/", "")}


def test_every_address_is_there_once() -> None:
    site = demo_site()
    paths = Counter([*(page.path for page in site.pages), *(asset.path for asset in site.assets)])
    assert [path for path, times in paths.items() if times > 1] == []


def test_links_and_anchors_lead_somewhere() -> None:
    files = {asset.path for asset in demo_site().assets}
    broken = [
        (at, path, anchor)
        for at in bodies()
        for path, anchor in led_to(at)
        if (path, anchor) not in WRITTEN_ANCHORS
        and path not in files
        and (path not in bodies() or (anchor and anchor not in seen(path).ids))
    ]
    assert broken == []


def test_ids_are_used_once_a_page() -> None:
    for path in bodies():
        ids = Counter(seen(path).ids)
        assert [id_ for id_, times in ids.items() if times > 1] == [], path


def test_start_leads_to_every_bike_by_its_label() -> None:
    reached = {path for path, _ in led_to("")}
    for id_ in demo().bikes:
        assert f"bikes/{id_}/" in reached and f'<span class="tag">{id_}</span>' in bodies()[""]


def test_the_verdict_stands_right_after_the_first_column() -> None:
    for page in demo_site().pages:
        for table in tables_in(page.context):
            kinds = [column.kind for column in table.columns]
            assert kinds[0] == "head"
            assert kinds.index("verdict") == 1 if "verdict" in kinds else True
            assert all(len(row.cells) == len(kinds) for row in table.rows)


def test_tables_and_their_files_have_names_of_their_own() -> None:
    named = [table.id for page in demo_site().pages for table in tables_in(page.context)]
    # the two tables of a pair page hold rows of a larger file
    shared = {"checks", "ways"}
    assert [id_ for id_, times in Counter(named).items() if times > 1 and id_ not in shared] == []


def test_the_first_way_is_the_one_the_verdict_names() -> None:
    ways = demo_all().ways
    for fit in demo_fits():
        if fit.option is not None:
            first = ways[fit.chain, fit.link][0]
            option = fit.option
            found = (first.clip, first.seals, first.seal_set, first.best, first.worst, first.adds_up)
            assert found == (
                option.clip,
                option.seals,
                option.seal_set,
                option.best,
                option.worst,
                option.adds_up,
            )
            assert first.rule_id == option.deciding_check.rule_id
            assert fit.best == min(way.best for way in ways[fit.chain, fit.link])


def test_fits_are_published_as_the_contract_says() -> None:
    text = next(asset.content for asset in demo_site().assets if asset.path == "data/v1/fits.json")
    pairs = json.loads(text)["pairs"]
    assert len(pairs) == len(demo().chains) * len(demo().links)
    pages = {page.path for page in demo_site().pages}
    assert all(pair["page"].partition("#")[0] in pages for pair in pairs)


def test_a_page_of_no_use_says_what_to_use_instead() -> None:
    told = 0
    for fit in demo_fits():
        if fit.own_page and (fit.worst is None or fit.worst >= 2):
            better = [f for f in demo_fits() if f.chain == fit.chain and f.worst is not None and f.worst <= 1]
            carried = [f for f in better if demo().links[f.link].record.count > 0]
            assert ("instead" in seen(pair_route(fit)).ids) == bool(carried)
            told += bool(carried)
    assert told > 100


def test_free_text_is_shown_as_typed() -> None:
    hostile = "<b>&amp; \"'</b> {{ 70007 * 3 }}"
    club = {
        "chains": {"c": {"size_code": "520", "kind": "plain", "name": hostile, "note": hostile}},
        "links": {
            "l": {
                "size_code": "520",
                "closure": "rivet",
                "plate_fit": "press",
                "made_for": "plain",
                "condition": "new",
                "name": hostile,
                "kept_in": hostile,
                "note": hostile,
            }
        },
    }
    dataset = checked(club)
    site = site_of(dataset)
    pages = [page_html for page_html in printed(site).values() if "&lt;b&gt;" in page_html]
    assert not any("<b>&amp; " in html or "210021" in html for html in pages)
    assert len(pages) >= 6
    assert all("&lt;b&gt;&amp;amp; &#34;&#39;&lt;/b&gt; {{ 70007 * 3 }}" in html for html in pages)


def test_a_club_with_next_to_nothing_has_a_handbook() -> None:
    empty = checked({})
    site = site_of(empty)
    assert {"", "chains/", "links/", "pairs/", "bikes/"} <= {page.path for page in site.pages}


def test_too_many_pairs_are_not_one_grid(monkeypatch: pytest.MonkeyPatch) -> None:
    book = demo_book()
    assert all_pairs_page(book).context["rows"]
    monkeypatch.setattr(all_pairs, "MOST_CELLS", len(demo_fits()) - 1)
    assert not all_pairs_page(book).context["rows"]


def test_every_pair_is_reached_from_its_chain_and_its_link() -> None:
    for fit in demo_fits():
        path, _, anchor = pair_route(fit).partition("#")
        assert (path, anchor) in led_to(f"links/{fit.link}/"), fit
        assert fit.link in seen(f"pairs/{fit.chain}/").ids or fit.own_page
        if fit.own_page:
            assert (path, "") in led_to(f"pairs/{fit.chain}/"), fit
            assert (path, "") in led_to(f"chains/{fit.chain}/"), fit


def test_a_pair_page_answers_in_the_order_people_ask() -> None:
    for fit in demo_fits():
        if fit.own_page:
            ids = seen(pair_route(fit)).ids
            found = [ids.index(id_) for id_ in PAIR_SECTIONS if id_ in ids]
            assert found == sorted(found), fit
            assert {"verdict", "why", "known"} <= set(ids)
            assert ("next" in ids) == (next_act(demo(), fit) is not None), fit
            assert ("numbers" in ids) == (fit.option is not None)


def test_a_no_go_page_tells_nobody_how_to_fit_it() -> None:
    """No clip, no width, no tool and no step of fitting; the other pages have what their joint asks for."""
    for fit in demo_fits():
        if not fit.own_page or fit.option is None:
            continue
        html, ids = bodies()[pair_route(fit)], seen(pair_route(fit)).ids
        fitted = fit.word != "no-go"
        assert ("do" in ids) == ("need" in ids) == ('<dl class="keys' in html) == fitted, fit


def test_every_number_and_every_way_stands_behind_a_fold() -> None:
    rules = demo().shelf.joint_rules
    for fit in demo_fits():
        if not fit.own_page or fit.option is None:
            continue
        html = unescape(bodies()[pair_route(fit)])
        numbers = html[html.index('id="numbers"') : html.index('id="known"')]
        for check in fit.option.checks:
            assert rules[check.rule_id].title in numbers, (fit.chain, fit.link, check.id)
        others = demo_all().ways[fit.chain, fit.link]
        assert ('id="other"' in html) == (len(others) > 1)
        if len(others) > 1:
            told = html[html.index('id="other"') : html.index('id="numbers"')]
            assert all(clip_short(way) in told for way in others[1:])


def test_links_are_listed_under_their_verdict_best_first() -> None:
    """Of every bike, chain and link: each verdict in its own section, no-go too, as many as its chip says."""
    order = ["proper", "get-home", "last-resort", "no-go", "not-settled"]
    for page in demo_site().pages:
        if page.kind not in ("bike", "chain", "link"):
            continue
        sections, chips = page.context["sections"], page.context["chips"]
        assert isinstance(sections, tuple) and isinstance(chips, tuple)
        ids = [section.id for section in sections]
        assert ids == [id_ for id_ in order if id_ in ids], page.path
        for section in sections:
            words = {row.verdict.word for row in (*section.rows, *section.rest)}
            wanted = {"measure-first", "cannot-judge"} if section.id == "not-settled" else {section.id}
            assert words <= wanted, page.path
            ranks = [best_first_of(row.verdict) for row in (*section.rows, *section.rest)]
            assert ranks == sorted(ranks), page.path
        fits = demo().links if page.kind in ("bike", "chain") else demo().chains
        assert sum(chip.count for chip in chips) == len(fits)
        assert {chip.to for chip in chips} <= {*ids, "runs"}


def best_first_of(verdict: ShownVerdict) -> tuple[int, int]:
    """Worst, then best, of an open verdict as it is printed; what cannot be judged comes last."""
    if verdict.word == "cannot-judge":
        return len(RUNGS), 0
    best, _, worst = (verdict.span or f"{verdict.word} to {verdict.word}").partition(" to ")
    return RUNGS.index(worst), RUNGS.index(best)


def test_a_part_leads_to_all_it_meets() -> None:
    for fit in demo_all().others.clip_links:
        assert (f"links/{fit.id_of('link')}/", "") in led_to(f"clips/{fit.id_of('clip')}/")
