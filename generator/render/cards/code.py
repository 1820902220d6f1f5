"""The code that leads a phone from a card to its page."""

from collections.abc import Iterator
from functools import lru_cache
from io import BytesIO

import segno

from generator.render.cards.card import Block, Code, Run

QUIET_ZONE = 4  # modules, ISO/IEC 18004


@lru_cache(maxsize=1024)
def code_svg(url: str) -> str:
    """Black on white with its quiet zone; a tenth of the code may be lost to dirt."""
    drawn = BytesIO()
    made = segno.make(url, error="m", micro=False)
    made.save(drawn, kind="svg", xmldecl=False, border=QUIET_ZONE, light="#fff", nl=False)
    return drawn.getvalue().decode("ascii")


def code(site: str, page: str) -> Iterator[Block]:
    """Nothing where the handbook has no published address."""
    if site:
        url = site + page
        yield Code(code_svg(url), url, (Run("The same in full: "), Run(url)))
