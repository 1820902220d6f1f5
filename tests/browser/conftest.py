"""Finds a Chromium on this machine; without one the browser tests are skipped, or fail where it is required."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from generator.site.build import build_site
from tests.browser.served import served
from tests.fake_site import fake_site

NAMES = ("chromium", "chromium-browser", "google-chrome")

# for a machine without graphics, without other users and without a way to the internet
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def find_chromium() -> str | None:
    """$HANDBOOK_CHROMIUM, or the first of the usual names; never downloaded."""
    named = os.environ.get("HANDBOOK_CHROMIUM")
    return shutil.which(named) if named else next(filter(None, map(shutil.which, NAMES)), None)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if item.path.parent == Path(__file__).parent:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = find_chromium()
    if path is None:
        why = f"no Chromium: set HANDBOOK_CHROMIUM, or install one of {', '.join(NAMES)}"
        if os.environ.get("HANDBOOK_REQUIRE_BROWSER") == "1":
            pytest.fail(why)
        pytest.skip(why)
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        yield chromium
        chromium.close()


@contextmanager
def opened(browser: Browser, width: int, height: int = 740, **context: Any) -> Iterator[Page]:
    """A page of its own; sizes in px."""
    alone = browser.new_context(viewport={"width": width, "height": height}, **context)
    yield alone.new_page()
    alone.close()


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    with opened(browser, 360) as page:
        yield page


@pytest.fixture(scope="session")
def fake_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The made-up handbook, built."""
    folder = tmp_path_factory.mktemp("browser") / "site"
    build_site(fake_site(), folder)
    return folder


@pytest.fixture(scope="session")
def demo_address(demo_folder: Path) -> Iterator[str]:
    with served(demo_folder) as address:
        yield address


@pytest.fixture(scope="session")
def fake_address(fake_folder: Path) -> Iterator[str]:
    with served(fake_folder) as address:
        yield address
