"""Ways to what is asked for on the trail and at the bench: a lost clip, the next reading, the page about the handbook."""

from html import unescape
from typing import Any

from generator.compute.all_fits import all_fits
from generator.compute.fit.clip_lost import makeshifts
from generator.compute.next_act import acts_of
from generator.compute.worth_doing import worth_doing
from generator.render.base.page import Page
from generator.render.base.routes import pair_route, part_route
from generator.render.base.verdicts import range_verdict
from generator.render.pages.book import book_of
from generator.render.pages.clip_lost import clip_lost_page
from generator.render.pages.clip_trail import clip_trail, own_fit
from generator.render.pages.worth import MOST_OF_A_PART, worth_page
from generator.render.say.acts import act_subject
from generator.site.content import site_of
from tests.clubs import checked
from tests.handbook import bodies, demo, demo_book, demo_fits, demo_site, led_to, printed, seen
from tests.test_search import search


def page(path: str) -> Page:
    return next(page for page in demo_site().pages if page.path == path)


def test_every_bike_says_what_to_put_on_without_its_clip() -> None:
    """Clips that go on first, with their places, then the makeshifts as computed; and the way to the page of all bikes."""
    told = 0
    for id_, bike in demo().bikes.items():
        path, chain = part_route("bike", id_), bike.record.chain
        assert ("clip-lost/", "") in led_to(path)
        fit = own_fit(demo_book(), chain)
        trail = clip_trail(demo_book(), fit) if fit else None
        assert ("clip-lost" in seen(path).ids) == (trail is not None)
        if fit is None or trail is None:
            continue
        html = unescape(bodies()[path])
        section = html[html.index('id="clip-lost"') : html.index('id="facts"')]
        places = [section.index(row.name) for row in trail.rows]
        assert places == sorted(places), path
        titles = [demo().shelf.other_rules["clip_lost"][m.rule_id].title for m in makeshifts(demo(), fit)]
        assert {row.name for row in trail.makeshifts} == set(titles)
        told += len(titles)
    assert told > 10


def test_the_clip_of_another_bike_is_get_home_at_best() -> None:
    for fit in demo_fits():
        trail = clip_trail(demo_book(), fit)
        for row in trail.off_a_bike if trail else ():
            assert row.verdict.word != "proper"


def test_the_page_of_a_pair_says_what_is_left() -> None:
    for fit in demo_fits():
        if fit.own_page and makeshifts(demo(), fit) and fit.option is not None:
            assert "clip-lost" in seen(pair_route(fit)).ids


def test_the_page_of_a_lost_clip_names_every_bike_once() -> None:
    """With the worth of its least bad makeshift, or among those that have no clip to lose or are not written down."""
    body = bodies()["clip-lost/"]
    for id_, bike in demo().bikes.items():
        assert body.count(f'<span class="tag">{id_}</span>') == 1, id_
        fit = own_fit(demo_book(), bike.record.chain)
        if fit is None or demo().links[fit.link].record.closure != "clip":
            continue
        left = [(found.worst, found.best) for found in makeshifts(demo(), fit)]
        worst, best = min(left, default=(3, 3))
        row = body[: body.index(f'<span class="tag">{id_}</span>')].rsplit("fit__plate v-", 1)[1]
        assert row.startswith(range_verdict(best, worst).word), id_


def test_a_lost_clip_and_a_repair_are_found() -> None:
    for text in ("clip gone", "clip came off"):
        assert search().find(text)[0] == "clip-lost/", text
    # the demo has a clip with this very label
    for text in ("clip lost", "lost my clip"):
        assert set(search().find(text)[:2]) == {"clips/clip-lost/", "clip-lost/"}


def test_what_check_names_stands_on_the_site() -> None:
    """The whole list in its order, from the start page on."""
    worth = worth_doing(demo_fits(), acts_of(demo(), demo_fits())).worth
    rows: Any = page("worth-doing/").context["rows"]
    assert [(row.name, row.tag) for row in rows] == [act_subject(demo(), each.act) for each in worth]
    # what is asked of a part is told in words, and whose label it bears can be read off the bag
    assert all(row.name and row.tag and row.detail[0].isupper() for row in rows)
    assert ("worth-doing/", "") in led_to("") & led_to("measuring/")
    for text in ("what to measure next", "worth measuring"):
        assert search().find(text)[0] == "worth-doing/", text


def test_chains_and_links_show_their_own_next_acts() -> None:
    for kind, of in (("chain", "chain"), ("link", "link")):
        for id_ in demo().chains if kind == "chain" else demo().links:
            fits = [fit for fit in demo_fits() if getattr(fit, of) == id_]
            mine = worth_doing(fits, acts_of(demo(), fits)).worth[:MOST_OF_A_PART]
            shown: Any = page(part_route(kind, id_)).context["worth"]
            assert len(shown) == len(mine)


def test_about_is_listed_and_found_like_every_other_page() -> None:
    assert ("about/", "") in led_to("pages/")
    assert search().find("about this handbook")[0] == "about/"
    assert search().find("what is not covered")[0] == "about/"


def test_a_club_with_nothing_has_these_pages_too() -> None:
    site = site_of(checked({}))
    found = printed(site)
    assert "No pair to judge yet" in found["worth-doing/"]
    assert "No bike is known to have a clip to lose" in found["clip-lost/"]
    empty = book_of(checked({}), all_fits(checked({})))
    assert not worth_page(empty).context.get("rows")
    assert clip_lost_page(empty).context["bikes"] == ()
