"""Finishes a built folder in place: every page gets its policy, styles lose their comments, the folder gets its mark."""

from collections.abc import Collection
from pathlib import Path

from generator.site.finish import PolicyFault, finished, without_comments
from generator.site.marker import mark


def finish_folder(folder: Path, known_scripts: Collection[str]) -> None:
    for file in sorted(folder.rglob("*.html")):
        try:
            html = finished(file.read_text(encoding="utf-8"), known_scripts)
        except PolicyFault as fault:
            raise PolicyFault(f"{file.relative_to(folder).as_posix()}: {fault}") from fault
        file.write_text(html, encoding="utf-8", newline="\n")
    for file in sorted(folder.rglob("*.css")):
        styles = without_comments(file.read_text(encoding="utf-8"))
        file.write_text(styles, encoding="utf-8", newline="\n")
    mark(folder)
