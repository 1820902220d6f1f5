"""Ways to what is asked for on the trail and at the bench: a lost clip, the next reading, the page about the handbook."""

from generator.compute.all_fits import all_fits
from generator.compute.fit.clip_lost import makeshifts
from generator.compute.worth_doing import worth_doing
from generator.render.base.page import Page
from generator.render.base.routes import pair_route, part_route
from generator.render.base.table import Table
from generator.render.pages.book import book_of
from generator.render.pages.clip_lost import clip_lost_page
from generator.render.pages.worth import MOST_OF_A_PART, worth_page
from generator.render.say.acts import act_title
from generator.site.content import site_of
from tests.clubs import checked
from tests.handbook import bodies, demo, demo_fits, demo_site, led_to, printed, seen
from tests.test_search import search


def page(path: str) -> Page:
    return next(page for page in demo_site().pages if page.path == path)


def table(path: str, name: str) -> Table:
    found = page(path).context[name]
    assert isinstance(found, Table)
    return found


def test_every_bike_and_chain_says_what_is_left_without_the_clip() -> None:
    """The makeshifts of the link it runs with, as computed, and the way to the page of all bikes."""
    fits = {(fit.chain, fit.link): fit for fit in demo_fits()}
    told = 0
    chains = {id_: part.record.own_link for id_, part in demo().chains.items()}
    at = {part_route("chain", id_): id_ for id_ in chains}
    at |= {part_route("bike", id_): bike.record.chain for id_, bike in demo().bikes.items()}
    for path, chain in at.items():
        assert "clip-lost" in seen(path).ids
        assert ("clip-lost/", "") in led_to(path)
        html = bodies()[path]
        section = html[html.index('id="clip-lost"') : html.index('id="facts"')]
        own = chains[chain]
        found = makeshifts(demo(), fits[chain, own]) if own else ()
        for each in found:
            assert demo().shelf.other_rules["clip_lost"][each.rule_id].title in section, path
        told += len(found)
    assert told > 20


def test_the_page_of_a_pair_leads_to_what_is_left_and_to_the_bikes() -> None:
    for fit in demo_fits():
        if fit.own_page and makeshifts(demo(), fit) and fit.option is not None:
            assert "clip-lost" in seen(pair_route(fit)).ids
            # nothing to fit by under a no-go, so nothing to jump from
            assert fit.word == "no-go" or (pair_route(fit), "clip-lost") in led_to(pair_route(fit))


def test_the_list_of_bikes_gives_the_best_that_is_left() -> None:
    """Bikes with a clip to lose, each with the least bad of its makeshifts."""
    rows = {row.id: row for row in table("clip-lost/", "bikes").rows}
    fits = {(fit.chain, fit.link): fit for fit in demo_fits()}
    for id_, bike in demo().bikes.items():
        own = demo().chains[bike.record.chain].record.own_link
        link = demo().links[own] if own else None
        assert (id_ in rows) == (link is None or link.record.closure == "clip")
        if link is None or id_ not in rows:
            continue
        left = [(found.worst, found.best) for found in makeshifts(demo(), fits[bike.record.chain, link.id])]
        worst, best = min(left, default=(3, 3))
        verdict = rows[id_].cells[1].verdict
        assert verdict is not None and verdict.track == f"t{best}{worst}"


def test_a_lost_clip_and_a_repair_are_found() -> None:
    for text in ("clip gone", "repair", "trailside repair"):
        assert search().find(text)[0] == "clip-lost/", text
    # the demo has a clip with this very label
    for text in ("clip lost", "lost my clip"):
        assert set(search().find(text)[:2]) == {"clips/clip-lost/", "clip-lost/"}


def test_what_check_names_stands_on_the_site() -> None:
    """The whole list in its order, from the start page on."""
    worth = worth_doing(demo(), demo_fits()).worth
    rows = page("worth-doing/").context["rows"]
    assert [row.name for row in rows] == [act_title(demo(), each.act) for each in worth]
    assert ("worth-doing/", "") in led_to("") & led_to("measuring/")
    for text in ("what to measure next", "worth measuring"):
        assert search().find(text)[0] == "worth-doing/", text


def test_chains_and_links_show_their_own_next_acts() -> None:
    for kind, of in (("chain", "chain"), ("link", "link")):
        for id_ in demo().chains if kind == "chain" else demo().links:
            fits = [fit for fit in demo_fits() if getattr(fit, of) == id_]
            mine = worth_doing(demo(), fits).worth[:MOST_OF_A_PART]
            assert len(page(part_route(kind, id_)).context["worth"]) == len(mine)


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
    assert worth_page(empty).context["table"] is None
    assert clip_lost_page(empty).context["bikes"] is None
