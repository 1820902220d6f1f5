"""A process for test_swap.py to kill: replaces a folder again and again, each time with the next generation."""

import sys
from pathlib import Path

from generator.site.exchange import exchanged
from generator.site.swap import replacing

FILES = 40


def no_exchange(_one: Path, _other: Path) -> bool:
    """A file system that cannot exchange two folders in one step."""
    return False


EXCHANGES = {"kernel": exchanged, "two-renames": no_exchange}


def write_generation(folder: Path, generation: int, size: int = 2000) -> None:
    """Forty files that all say the same number."""
    for number in range(FILES):
        page = folder / f"part-{number % 5}" / f"{number}.txt"
        page.parent.mkdir(exist_ok=True)
        page.write_text(f"{generation} " * (size // 4))


def main(target: str, kind: str, first: str) -> None:
    generation = int(first)
    while True:
        with replacing(Path(target), EXCHANGES[kind]) as fresh:
            write_generation(fresh, generation)
        print(generation, flush=True)
        generation += 1


if __name__ == "__main__":
    main(*sys.argv[1:])
