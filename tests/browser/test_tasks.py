"""Ten things a rider or a secretary wants, and how many taps each takes from the start page: at most three."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.conftest import opened

MOST_TAPS = 3


@dataclass
class Thumb:
    """Taps and counts; choosing from a list and typing a word are a tap each."""

    page: Page
    taps: int = 0

    def tap(self, where: Locator) -> None:
        where.click()
        self.taps += 1

    def choose(self, box: Locator, label: str) -> None:
        box.select_option(label)
        self.taps += 1

    def type_into(self, text: str) -> None:
        """One tap opens the field, one ends what is typed."""
        self.tap(self.page.get_by_role("link", name="Find"))
        self.page.get_by_role("searchbox").fill(text)
        expect(self.page.locator(".find__list li").first).to_be_visible()


def link(thumb: Thumb, name: str) -> Locator:
    return thumb.page.locator("#content").get_by_role("link", name=name).first


def does_it_fit(thumb: Thumb) -> Locator:
    thumb.choose(thumb.page.get_by_label("On the bike"), "b01")
    thumb.choose(thumb.page.get_by_label("In the bag"), "tin-3-red")
    return thumb.page.locator(".finder__answer .panel")


def what_goes_on_my_bike(thumb: Thumb) -> Locator:
    thumb.tap(link(thumb, "Leader's trail bike"))
    return thumb.page.locator("#runs .fit__plate")


def what_must_not_go_on_it(thumb: Thumb) -> Locator:
    thumb.tap(link(thumb, "Leader's trail bike"))
    thumb.tap(thumb.page.locator(".chip.v-no-go"))
    return thumb.page.locator("#no-go")


def clip_lost(thumb: Thumb) -> Locator:
    thumb.tap(link(thumb, "Clip lost"))
    return thumb.page.locator("[data-answer]").first


def chain_broke(thumb: Thumb) -> Locator:
    thumb.tap(thumb.page.get_by_role("link", name="Broke", exact=True))
    return thumb.page.locator("[data-answer]").first


def mend_a_bike(thumb: Thumb) -> Locator:
    """Its way is not the first on the page, which is shut until somebody asks for it."""
    thumb.tap(link(thumb, "Chain broke"))
    thumb.tap(link(thumb, "A narrow link broken"))
    thumb.tap(thumb.page.locator("#bike_b10 a"))
    return thumb.page.locator("#shorter-by-link .step").first


def which_size(thumb: Thumb) -> Locator:
    thumb.tap(link(thumb, "Which size is it?"))
    thumb.tap(thumb.page.locator(".finder-grid").get_by_role("link", name="520").first)
    return thumb.page.get_by_role("heading", level=1)


def a_label_from_a_bag(thumb: Thumb) -> Locator:
    thumb.type_into("tin 2 step")
    thumb.tap(thumb.page.locator(".find__list a").first)
    return thumb.page.locator("[data-answer]").first


def a_bike_and_a_link(thumb: Thumb) -> Locator:
    thumb.type_into("b01 tin-3-red")
    return thumb.page.locator(".find__list .plate").first


def all_pairs_of_a_chain(thumb: Thumb) -> Locator:
    thumb.tap(link(thumb, "All chains, all links"))
    thumb.tap(thumb.page.locator("#chains a").first)
    return thumb.page.locator(".chips").first


def what_to_measure_next(thumb: Thumb) -> Locator:
    thumb.tap(link(thumb, "Measure next"))
    return thumb.page.locator("[data-answer]").first


TASKS: tuple[Callable[[Thumb], Locator], ...] = (
    does_it_fit, what_goes_on_my_bike, what_must_not_go_on_it, clip_lost, chain_broke, mend_a_bike, which_size, a_label_from_a_bag,
    a_bike_and_a_link, all_pairs_of_a_chain, what_to_measure_next,
)  # fmt: skip


@pytest.fixture
def thumb(browser: Browser, demo_address: str) -> Iterator[Thumb]:
    with opened(browser, 360, 740) as page:
        page.goto(f"{demo_address}index.html")
        yield Thumb(page)


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.__name__.replace("_", " "))
def test_a_task_takes_three_taps_at_most(thumb: Thumb, task: Callable[[Thumb], Locator]) -> None:
    answer = task(thumb)
    expect(answer).to_be_visible()
    print(f"{task.__name__}: {thumb.taps}")
    assert 0 < thumb.taps <= MOST_TAPS
