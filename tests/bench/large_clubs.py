"""`python -m tests.bench.large_clubs [chains links]`: megabytes of a whole handbook of 60 chains x 200 links, by folder
and kind of file, and of memory at the most."""

import argparse
import shutil
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from resource import RUSAGE_SELF, getrusage

from generator.model.dataset import Dataset
from generator.site.build import build_site
from generator.site.collector import collector_resting
from generator.site.content import site_of
from tests.bench.phone import OURS, a_browser, visited
from tests.bench.search_clubs import copies
from tests.club_maker import club
from tests.clubs import checked

CLUBS: Mapping[str, Callable[[int, int], Dataset]] = {
    "copies of the demo": copies,
    "made up": lambda chains, links: checked(
        club(4, bikes=chains, chains=chains, links=links, carried=min(chains, 60))
    ),
}


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("chains", nargs="?", type=int, default=60)
    asked.add_argument("links", nargs="?", type=int, default=200)
    size = asked.parse_args()
    print("| club | files | number | MB |\n|---|---|---|---|")
    for name in CLUBS:
        # in a process of its own, as what one was given is not given back
        with ProcessPoolExecutor(1, get_context("spawn")) as own:
            found = own.submit(_built, name, size.chains, size.links).result()
        for line in _lines(name, *found):
            print(line, flush=True)


def _built(name: str, chains: int, links: int) -> tuple[Counter[str], Counter[str], float]:
    """Files and bytes by kind of file; megabytes of this process at the most."""
    dataset = CLUBS[name](chains, links)
    folder = Path(tempfile.mkdtemp())
    number, size = Counter[str](), Counter[str]()
    try:
        with collector_resting():
            build_site(site_of(dataset), folder / "site")
        peak = getrusage(RUSAGE_SELF).ru_maxrss / 1000
        for file in (path for path in (folder / "site").rglob("*") if path.is_file()):
            kind = _kind(file.relative_to(folder / "site"))
            number[kind] += 1
            size[kind] += file.stat().st_size
        with a_browser() as browser:
            found = visited(browser, folder / "site", OURS)
            print(
                f"search, {found['answers']} letters typed, laid out: p95 {found['p95_ms']:.0f} ms",
                flush=True,
            )
    finally:
        shutil.rmtree(folder)
    return number, size, peak


def _kind(file: Path) -> str:
    """`pairs/*/* .html` for a page of a pair: its first folder, and a star for each below it."""
    first, *below = file.parts[:-1] or (".",)
    return f"{'/'.join((first, *('*' for _ in below)))} {file.suffix}"


def _lines(club: str, number: Counter[str], size: Counter[str], peak: float) -> Iterator[str]:
    for kind, length in size.most_common(12):
        yield f"| {club} | {kind} | {number[kind]} | {length / 1e6:.1f} |"
    yield f"| {club} | all | {number.total()} | {size.total() / 1e6:.1f} |"
    yield f"| {club} | memory of the process at the most | | {peak:.0f} |"


if __name__ == "__main__":
    main()
