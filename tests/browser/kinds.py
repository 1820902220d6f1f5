"""One page of each kind of a built handbook, for looks that cost too much to take at every page."""

import re
from pathlib import Path

# these stand beside pages of another kind
OF_THEIR_OWN = {"care/plan", "care/inspection", "repair/coverage"}
VERDICT = re.compile(r'class="plate panel v-([a-z-]+)')


def kind_of(address: str, html: str) -> str:
    """The shape of the address: ids of the club are all one.  Pages of pairs differ by what the verdict is."""
    if "/" not in address or address.count("/") == 1:
        return address.removesuffix("/index.html")
    first, *ids, _file = address.split("/")
    if "/".join([first, *ids]) in OF_THEIR_OWN:
        return "/".join([first, *ids])
    verdict = VERDICT.search(html) if len(ids) == 2 else None
    return "/".join([first, *("*" for _ in ids)]) + (f" {verdict[1]}" if verdict else "")


def all_kinds(folder: Path) -> dict[str, list[str]]:
    """Kind -> files below the folder, smallest first."""
    sized: dict[str, list[tuple[int, str]]] = {}
    for file in folder.rglob("*.html"):
        address, html = file.relative_to(folder).as_posix(), file.read_text(encoding="utf-8")
        sized.setdefault(kind_of(address, html), []).append((len(html), address))
    return {kind: [address for _, address in sorted(pages)] for kind, pages in sorted(sized.items())}


def one_of_each(folder: Path) -> dict[str, str]:
    return {kind: pages[len(pages) // 2] for kind, pages in all_kinds(folder).items()}
