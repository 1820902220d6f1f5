"""A whole build of the demo by phase, and beside the stock theme given the same words as Markdown."""

import shutil
import tempfile
import time
from pathlib import Path
from typing import Any

from generator.load.folder import load_club, load_shelf
from generator.site.build import build_site
from generator.site.collector import collector_resting
from generator.site.content import site_of
from generator.validate.dataset import build_dataset
from tests.bench.stock_site import run_stock, write_words
from tests.bench.stopwatch import Stopwatch, watching
from tests.clubs import DATA

# (modules that call, modules that are called, phase)
WATCHED = (
    ("generator.render", "generator.compute", "compute"),
    ("generator.site.content", "generator.compute", "compute"),
    ("generator.site.content", "generator.render", "render"),
    ("generator.site.content", "generator.render.cards", "cards"),
    ("generator.site.content", "generator.site.cards", "cards"),
    ("generator.site.plugin", "generator.render", "render"),
    ("generator.site.plugin", "generator.site.publish", "finish"),
)


def phase_figures() -> dict[str, Any]:
    """The same words by the stock theme right after: what is compared is processor time, as other work may run."""
    watch = Stopwatch()
    folder = Path(tempfile.mkdtemp())
    try:
        start, used = time.perf_counter(), time.process_time()
        _build(watch, folder / "site")
        total, used = time.perf_counter() - start, time.process_time() - used
        write_words(folder / "site", folder / "stock")
        stock = time.process_time()
        run_stock(folder / "stock")
        stock = time.process_time() - stock
        files = [path for path in (folder / "site").rglob("*") if path.is_file()]
        size = sum(path.stat().st_size for path in files)
    finally:
        shutil.rmtree(folder)
    return {
        "seconds": total,
        "processor_seconds": used,
        "stock_processor_seconds": stock,
        "of_stock": used / stock,
        # paper, which the stock theme makes none of
        "cards_processor_seconds": watch.used["cards"],
        "without_cards_of_stock": (used - watch.used["cards"]) / stock,
        "pages": sum(path.suffix == ".html" for path in files),
        "megabytes": size / 1e6,
        "share": {name: seconds / total for name, seconds in watch.seconds.items()},
    }


def _build(watch: Stopwatch, target: Path) -> None:
    with watch.phase("load"):
        club, shelf = load_club(DATA / "demo"), load_shelf(DATA)
    with watch.phase("check"):
        dataset, _ = build_dataset(club, shelf)
    assert dataset is not None
    open_watches = [watching(watch, *each) for each in WATCHED]
    for each in open_watches:
        each.__enter__()
    try:
        with collector_resting(), watch.phase("mkdocs"):
            build_site(site_of(dataset), target)
    finally:
        for each in reversed(open_watches):
            each.__exit__(None, None, None)
