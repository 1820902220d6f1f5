"""Every page of the demo from a folder on disk, by night and on a phone: a file of its own, as the walk is long and
files are run side by side."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.crawl import crawl, faults, pages_of


@pytest.mark.long
def test_every_page_of_the_demo_from_a_folder_on_disk(browser: Browser, demo_folder: Path) -> None:
    walk = crawl(browser, f"{demo_folder.as_uri()}/", demo_folder, color_scheme="dark")
    print(f"{len(walk.pages)} pages, {walk.verdicts} verdicts, {walk.texts} texts")
    assert faults(walk) == {}
    assert len(walk.pages) == len(pages_of(demo_folder)) - 1
