"""Words of the trade in a page's texts, each linked to the glossary where it first stands."""

import re
from collections.abc import Mapping

from markupsafe import Markup, escape

from generator.model.shipped import Term
from generator.render.base.page import relative_address

_TAG = re.compile(r"(<[^>]*>)")
# words that a sentence of the guide uses in their everyday meaning
EVERYDAY = ("range", "seat", "chance")


class WordLinks:
    """For one page: give it the texts in the order in which they are read."""

    def __init__(self, terms: Mapping[str, Term], at: str) -> None:
        self.left = {term.title.lower(): id_ for id_, term in terms.items() if id_ not in EVERYDAY}
        self.at = at
        # the longest first, so that a pin reach is not linked as a pin
        names = sorted(self.left, key=len, reverse=True)
        self.pattern = re.compile(rf"\b({'|'.join(map(re.escape, names))})(e?s)?\b", re.IGNORECASE)

    def linked(self, html: Markup) -> Markup:
        parts = _TAG.split(str(html))
        return Markup(
            "".join(part if n % 2 else self.pattern.sub(self._link, part) for n, part in enumerate(parts))
        )

    def _link(self, match: re.Match[str]) -> str:
        id_ = self.left.pop(match[1].lower(), None)
        if id_ is None:
            return match[0]
        to = escape(relative_address(self.at, f"glossary/#{id_}"))
        return f'<a class="word" href="{to}">{match[0]}</a>'
