"""`python -m tests.bench.large_clubs`: megabytes of a whole handbook of 60 chains x 200 links, by folder and kind of file."""

import shutil
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from generator.model.dataset import Dataset
from generator.site.build import build_site
from generator.site.content import site_of
from tests.bench.phone import OURS, a_browser, visited
from tests.bench.search_clubs import large
from tests.club_maker import sixty_by_two_hundred
from tests.clubs import checked


def main() -> None:
    print("| club | files | number | MB |\n|---|---|---|---|")
    for name, dataset in (
        ("copies of the demo", large().book.dataset),
        ("made up", checked(sixty_by_two_hundred())),
    ):
        for line in _lines(name, *_built(dataset)):
            print(line, flush=True)


def _built(dataset: Dataset) -> tuple[Counter[str], Counter[str]]:
    """Files and bytes by kind of file."""
    folder = Path(tempfile.mkdtemp())
    number, size = Counter[str](), Counter[str]()
    try:
        build_site(site_of(dataset), folder / "site")
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
    return number, size


def _kind(file: Path) -> str:
    """`pairs/*/* .html` for a page of a pair: its first folder, and a star for each below it."""
    first, *below = file.parts[:-1] or (".",)
    return f"{'/'.join((first, *('*' for _ in below)))} {file.suffix}"


def _lines(club: str, number: Counter[str], size: Counter[str]) -> Iterator[str]:
    for kind, length in size.most_common(12):
        yield f"| {club} | {kind} | {number[kind]} | {length / 1e6:.1f} |"
    yield f"| {club} | all | {number.total()} | {size.total() / 1e6:.1f} |"


if __name__ == "__main__":
    main()
