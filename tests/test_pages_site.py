"""The club's own pages: every pair can be reached, every link leads somewhere, every verdict is the engine's."""

import json
import re
from collections import Counter
from dataclasses import replace

from generator.render.base.routes import pair_route
from generator.render.many import MANY_PAIRS
from generator.render.pages.all_pairs import all_pairs_page
from generator.render.pages.book import book_of
from generator.render.pages.fit_cells import verdict_of
from generator.render.pages.pairs import chain_pairs_page
from generator.site.content import site_of
from tests.clubs import checked
from tests.handbook import PAIR_SECTIONS, bodies, demo, demo_all, demo_fits, demo_site, led_to, printed, seen
from tests.page_tables import tables_in

# what hand-written pages hold; the crawl of the built handbook looks at those
WRITTEN_ANCHORS = {("safety/", "clip-goes")}


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


def test_every_pair_is_reached_from_its_chain_and_its_link() -> None:
    for fit in demo_fits():
        path, _, anchor = pair_route(fit).partition("#")
        assert (path, anchor) in led_to(f"links/{fit.link}/"), fit
        assert (path, anchor) in led_to("pairs/"), fit
        if fit.own_page:
            assert (path, "") in led_to(f"pairs/{fit.chain}/"), fit
            assert (path, "") in led_to(f"chains/{fit.chain}/"), fit
        assert fit.link in seen(f"pairs/{fit.chain}/").ids


def test_start_leads_to_every_bike_and_every_link_by_its_label() -> None:
    reached = {path for path, _ in led_to("")}
    assert {f"bikes/{id_}/" for id_ in demo().bikes} | {f"links/{id_}/" for id_ in demo().links} <= reached
    for id_ in (*demo().bikes, *demo().links):
        assert f"<strong>{id_}</strong>" in bodies()[""]


def test_rows_of_a_chain_carry_the_verdicts_of_the_engine() -> None:
    book = book_of(demo(), demo_all())
    for chain in demo().chains:
        table = chain_pairs_page(book, chain).context["table"]
        rows = {row.id: row for row in next(iter(tables_in(table))).rows}
        fits = {fit.link: fit for fit in demo_fits() if fit.chain == chain}
        assert {link: row.cells[1].verdict for link, row in rows.items()} == {
            link: verdict_of(fit) for link, fit in fits.items()
        }


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


def test_a_pair_page_answers_in_the_order_people_ask() -> None:
    for fit in demo_fits():
        if fit.own_page:
            ids = seen(pair_route(fit)).ids
            found = [ids.index(id_) for id_ in PAIR_SECTIONS if id_ in ids]
            assert found == sorted(found), fit
            assert {"verdict", "why", "cut", "basis"} <= set(ids)
            assert ("next" in ids) == (fit.best != fit.worst or fit.refused is not None)


def test_a_no_go_page_tells_nobody_how_to_fit_it() -> None:
    """No clip direction, no seals to fit, no caution of a fitting step; the other pages have all of them."""
    for fit in demo_fits():
        if not fit.own_page or fit.option is None:
            continue
        html, ids = bodies()[pair_route(fit)], seen(pair_route(fit)).ids
        assert ("with" in ids) == (fit.word != "no-go"), fit
        if fit.word == "no-go":
            assert ("safety/", "clip-goes") not in led_to(pair_route(fit))
            assert "Fit all four" not in html and "Which way" not in html
        else:
            step = html[html.index('id="with"') : html.index('id="why"')]
            said = re.search("<p>(Clip |Needs no clip|There is no clip)", step)
            assert said and step.index("Engine off") < said.start()


def test_a_page_of_no_use_says_what_to_use_instead() -> None:
    told = 0
    for fit in demo_fits():
        if fit.own_page and (fit.worst is None or fit.worst >= 2):
            better = [f for f in demo_fits() if f.chain == fit.chain and f.worst is not None and f.worst <= 1]
            carried = [f for f in better if demo().links[f.link].record.count > 0]
            assert ("instead" in seen(pair_route(fit)).ids) == bool(carried)
            told += bool(carried)
    assert told > 100


def test_parts_are_listed_under_true_headings_best_first() -> None:
    """Of every chain and link: each verdict under its own heading, and nothing that cannot be judged before the open."""
    words = {
        "links": {"proper", "get-home", "last-resort"},
        "measure-first": {"measure-first"},
        "look-at-it": {"cannot-judge"},
        "no-go": {"no-go"},
    }
    for page in demo_site().pages:
        if page.kind not in ("chain", "link"):
            continue
        sections = page.context["sections"]
        assert isinstance(sections, tuple)
        assert [s.id for s in sections] == [id_ for id_ in words if id_ in {s.id for s in sections}]
        for section in sections:
            verdicts = [row.cells[1].verdict for row in section.table.rows] if section.table else []
            assert {verdict.word for verdict in verdicts} <= words[section.id], page.path
            ranks = [(verdict.track[2:], verdict.track[1:2]) for verdict in verdicts]
            assert ranks == sorted(ranks), page.path


def test_all_links_on_a_chain_stand_best_first() -> None:
    order = ["proper", "get-home", "last-resort", "cannot-judge", "no-go"]
    for chain in demo().chains:
        table = chain_pairs_page(book_of(demo(), demo_all()), chain).context["table"]
        words = [
            row.cells[1].verdict.word for row in next(iter(tables_in(table))).rows if row.cells[1].verdict
        ]
        decided = [word for word in words if word != "measure-first"]
        assert decided == sorted(decided, key=order.index)
        assert (
            "measure-first" not in words[words.index("cannot-judge") :] if "cannot-judge" in words else True
        )


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
    assert not any("<b>&" in html or "210021" in html for html in pages)
    assert len(pages) >= 6
    assert all("&lt;b&gt;&amp;amp; &#34;&#39;&lt;/b&gt; {{ 70007 * 3 }}" in html for html in pages)


def test_a_club_with_next_to_nothing_has_a_handbook() -> None:
    empty = checked({})
    site = site_of(empty)
    assert {"", "chains/", "links/", "pairs/", "bikes/"} <= {page.path for page in site.pages}


def test_too_many_pairs_are_not_one_table() -> None:
    few, fits = demo(), demo_all()
    many = replace(fits, pairs=fits.pairs * (MANY_PAIRS // len(fits.pairs) + 1))
    assert all_pairs_page(book_of(few, fits)).context["table"] is not None
    assert all_pairs_page(book_of(few, many)).context["table"] is None
