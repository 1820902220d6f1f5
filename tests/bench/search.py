"""The search against its budgets, beside lunr over the same entries in the same run: bytes, gold list, latency.

Run: python -m tests.bench.search
"""

import gzip
import json
from collections.abc import Iterable
from typing import Any

from playwright.sync_api import Page as BrowserPage
from playwright.sync_api import sync_playwright

from generator.render.search.index import search_index
from generator.shipped import shipped_root
from tests.bench import search_lunr
from tests.bench.search_clubs import Indexed, large, small
from tests.browser.conftest import FLAGS, find_chromium
from tests.search.gold import gold, marks
from tests.search.reckoned import index_of

ASSETS = shipped_root() / "site_overrides" / "assets"
OWN = ("search-words.js", "search-engine.js", "search.js")
SLOWDOWN = 4
FORM = """<form role="search" data-root=""><input id="handbook-search"></form>
<div id="handbook-search-results" hidden></div>"""
# every state of the field while each question is typed, letter by letter; ours with its list drawn
TIMED = """([texts, name]) => {
  const field = document.getElementById("handbook-search");
  const draw = (text) => {
    field.value = text;
    field.dispatchEvent(new Event("input"));
    return document.body.offsetHeight;
  };
  const find = window[name] || draw;
  const times = [];
  for (const text of texts) {
    for (let end = 1; end <= text.length; end += 1) {
      const start = performance.now();
      find(text.slice(0, end));
      times.push(performance.now() - start);
    }
  }
  return times;
}"""


def zipped(texts: Iterable[str]) -> int:
    """As a host sends them: each file for itself."""
    return sum(len(gzip.compress(text.encode("utf-8"), 9, mtime=0)) for text in texts)


def percentile(times: list[float], share: float) -> float:
    return round(sorted(times)[int(share * (len(times) - 1))], 1)


def script_of(club: Indexed) -> str:
    return str(search_index(club.book, club.pages).content)


def own_figures(page: BrowserPage, index: str) -> dict[str, Any]:
    scripts = [ASSETS.joinpath(name).read_text(encoding="utf-8") for name in OWN]
    loading = _run(page, [index, *scripts])
    done = marks(lambda ask: _paths(page, ask))
    return {
        "index_bytes_gzip": zipped([index]),
        "script_bytes_gzip": zipped(scripts),
        "gold": f"{done.first} first, {done.third} in three, of {done.asked}",
        "ready_ms": loading,
        **_latency(page, ""),
    }


def lunr_figures(page: BrowserPage, index: str) -> dict[str, Any]:
    files = search_lunr.files(index_of(index))
    words = ASSETS.joinpath(OWN[0]).read_text(encoding="utf-8")
    loading = _run(page, [files["library"], files["index"], files["rows"], words, search_lunr.FIND])
    done = marks(lambda ask: page.evaluate("text => window.lunrFind(text)", ask))
    return {
        "index_bytes_gzip": zipped([files["index"], files["rows"]]),
        "script_bytes_gzip": zipped([files["library"], words, search_lunr.FIND]),
        "gold": f"{done.first} first, {done.third} in three, of {done.asked}",
        "ready_ms": loading,
        **_latency(page, "lunrFind"),
    }


def _paths(page: BrowserPage, ask: str) -> list[str]:
    found: list[str] = page.evaluate(
        "text => window.handbookSearch.find(text, 10).list.map((entry) => entry.path)", ask
    )
    return found


def _run(page: BrowserPage, scripts: list[str]) -> float:
    """Milliseconds until a search can be asked, slowed down."""
    page.goto("about:blank")
    page.set_content(FORM)
    start: float = page.evaluate("performance.now()")
    for script in scripts:
        page.add_script_tag(content=script)
    end: float = page.evaluate("performance.now()")
    return round(end - start, 1)


def _latency(page: BrowserPage, name: str) -> dict[str, float]:
    times: list[float] = page.evaluate(TIMED, [[row.ask for row in gold()], name])
    return {
        "p50_ms": percentile(times, 0.5),
        "p95_ms": percentile(times, 0.95),
        "worst_ms": percentile(times, 1),
    }


def measured() -> dict[str, Any]:
    demo, club = script_of(small()), script_of(large())
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(FLAGS))
        page = browser.new_page()
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
        figures = {
            "slowdown": SLOWDOWN,
            "own, demo": own_figures(page, demo),
            "lunr, demo": lunr_figures(page, demo),
            "own, 60 x 200": own_figures(page, club),
        }
        browser.close()
    return figures


if __name__ == "__main__":
    print(json.dumps(measured(), indent=2))
