"""What a phone has to fetch and how long it thinks: ours and the stock theme with the same words, in one run."""

import gzip
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Page, Response, sync_playwright

from generator.site.build import build_site
from generator.site.content import club_site
from tests.bench.search import SLOWDOWN, percentile
from tests.bench.stock_site import build_stock
from tests.browser.conftest import FLAGS, find_chromium
from tests.browser.served import served
from tests.clubs import DATA
from tests.search.gold import gold

ASKED = "tin-3-red"
# field, first result
OURS = ("#handbook-search", "#handbook-search-results a")
STOCK = ("input.md-search__input", ".md-search-result__item")
# milliseconds from the event to the next change of the list of results, laid out, or null where it stays as it is
TIMED = """async ([field, result, texts]) => {
  const input = document.querySelector(field);
  const list = document.querySelector(result).closest("ol, ul, div");
  const times = [];
  for (const text of texts) {
    for (let end = 1; end <= text.length; end += 1) {
      const start = performance.now();
      const changed = new Promise((done) => {
        const watch = new MutationObserver(() => {
          watch.disconnect();
          list.parentElement.getBoundingClientRect();
          done(performance.now() - start);
        });
        watch.observe(list.parentElement, {childList: true, subtree: true, characterData: true});
        setTimeout(() => { watch.disconnect(); done(null); }, 1500);
      });
      input.value = text.slice(0, end);
      input.dispatchEvent(new Event("input", {bubbles: true}));
      input.dispatchEvent(new KeyboardEvent("keyup", {bubbles: true}));
      const took = await changed;
      if (took !== null) { times.push(took); }
    }
  }
  return times;
}"""
QUESTIONS = 12
# the network of a phone in the hills, as common tools emulate it: round trip in ms, bytes a second
SLOW_4G = {"offline": False, "latency": 150, "downloadThroughput": 200_000, "uploadThroughput": 93_750}
OPENED = """() => performance.getEntriesByType("navigation")[0].domContentLoadedEventEnd"""
TIMES_OPENED = 3


def phone_figures() -> dict[str, Any]:
    folder = Path(tempfile.mkdtemp())
    try:
        ours = folder / "ours"
        build_site(club_site(DATA / "demo"), ours)
        stock = build_stock(ours, folder / "stock")
        with a_browser() as browser:
            figures = {
                "ours": visited(browser, ours, OURS),
                "stock": visited(browser, stock, STOCK),
                "opened_ms": opened_ms(browser, ours),
            }
        pairs = sorted(len(_zipped(page.read_bytes())) for page in ours.glob("pairs/*/*/index.html"))
        return {
            **figures,
            "pair_pages": len(pairs),
            "pair_page_bytes": {"median": pairs[len(pairs) // 2], "most": pairs[-1]},
        }
    finally:
        shutil.rmtree(folder)


@contextmanager
def a_browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(FLAGS))
        yield browser
        browser.close()


def opened_ms(browser: Browser, folder: Path) -> dict[str, float]:
    """Until DOMContentLoaded on slow 4G at a quarter of the processor's speed, the middle of three: the grid of all
    pairs, and the longest page of a strip."""
    strips = max(folder.glob("strips/*/index.html"), key=lambda file: file.stat().st_size)
    pages = ("pairs/", f"strips/{strips.parent.name}/")
    with served(folder, compressed=True) as root:
        return {page: sorted(_opened(browser, root + page) for _ in range(TIMES_OPENED))[1] for page in pages}


def _opened(browser: Browser, address: str) -> float:
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    session.send("Network.emulateNetworkConditions", SLOW_4G)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
    page.goto(address)
    took: float = page.evaluate(OPENED)
    context.close()
    return took


def visited(browser: Browser, folder: Path, names: tuple[str, str]) -> dict[str, Any]:
    field, result = names
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True)
    page = context.new_page()
    fetched: list[Response] = []
    context.on("response", lambda response: fetched.append(response))  # a bound method is refused
    with served(folder) as root:
        page.goto(root)
        _ask(page, field, result)
        page.wait_for_load_state("networkidle")
        sizes = {response.url: len(_sent(response)) for response in fetched if response.ok}
        foreign = [
            r.url
            for r in fetched
            if urlsplit(r.url).netloc != urlsplit(root).netloc and r.url.startswith("http")
        ]
        context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
        texts = [row.ask for row in gold()][:: max(1, len(gold()) // QUESTIONS)]
        times: list[float] = page.evaluate(TIMED, [field, result, texts])
    context.close()
    return {
        "bytes": sum(sizes.values()),
        "requests": len(sizes),
        "to_other_hosts": len(foreign),
        "p95_ms": percentile(times, 0.95),
        "answers": len(times),
    }


def _ask(page: Page, field: str, result: str) -> None:
    """As a reader does: a touch, then letters; ours stays shut until Find is touched."""
    if page.locator("[data-find]").count():
        page.locator("[data-find]").first.click()
    page.locator(field).evaluate("field => field.focus()")
    page.locator(field).press_sequentially(ASKED, delay=20)
    page.locator(result).first.wait_for(state="attached")


def _sent(response: Response) -> bytes:
    """As a host sends it: text compressed, pictures and fonts as they are."""
    body = response.body()
    packed = response.url.endswith((".woff2", ".woff", ".png", ".ico"))
    return body if packed else _zipped(body)


def _zipped(body: bytes) -> bytes:
    return gzip.compress(body, 9, mtime=0)
