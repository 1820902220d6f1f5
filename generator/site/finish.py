"""The last pass over a finished page: its content policy, links that also work from a folder on disk, no ballast."""

import re
from base64 import b64encode
from collections.abc import Collection, Iterable
from hashlib import sha256
from html.parser import HTMLParser

_FIRST_META = '<meta charset="utf-8">'
_SCRIPT = re.compile(r"<script\b([^>]*)>(.*?)</script\s*>", re.DOTALL | re.IGNORECASE)
_DATA_BLOCK = re.compile(r"\btype=\"?(?!text/javascript)[a-z]+/")
_FOLDER_LINK = re.compile(r'href="([^":?#]*/)(#[^"]*)?"')
# Each starts with plain letters, which a search runs through a page many times faster than a choice of signs.
_SYMBOL = re.compile(r'<symbol id="([^"]+)".*?</symbol>', re.DOTALL)
_NAMED = re.compile(r'href="#([^"]+)"')
_KEPT_AS_IT_IS = re.compile(r"(<(pre|textarea|script)\b.*?</\2>)", re.DOTALL)
# switches and holders of the theme's own script, which is not published
_THEME_HOLDERS = tuple(
    re.compile(holder)
    for holder in (
        r'<input class="md-toggle"[^>]*>',
        r'<label class="md-overlay"[^>]*></label>',
        r'<div class="md-dialog"[^>]*>\s*<div[^>]*></div>\s*</div>',
        r'<div data-md-component="(?:skip|announce)">\s*</div>',
        r' data-md-component="[a-z]+"',
        r' class="md-main"',
        r'<div class="md-main__inner[^>]*>',
        r"</div>(?=\s*</main>)",
    )
)
_COMMENT = re.compile(r"/\*.*?\*/\n?", re.DOTALL)
_INDENT = re.compile(r"\n\s+")
_SUSPECTS = tuple(re.compile(sign) for sign in (r"style\s*=", r"<style\b", r"javascript:"))
_MAYBE_HANDLER = re.compile(r"on[a-z]+\s*=")  # `content=` looks like one


class PolicyFault(Exception):
    """Something in a page that the content policy would block in the reader's browser."""


def finished(html: str, known: Collection[str] = ()) -> str:
    """Policy in the head, links to `folder/` made `folder/index.html` (a disk has no index pages).  Of scripts within
    the page only those `known` may be there: what a page has come by otherwise must not be allowed by its own hash."""
    refuse_inline(html)
    _refuse_unknown(html, known)
    linked = _FOLDER_LINK.sub(r'href="\1index.html\2"', slim(html))
    if linked.count(_FIRST_META) != 1:
        raise PolicyFault(f"a page must have {_FIRST_META} once, to put its policy behind it")
    meta = f'<meta http-equiv="Content-Security-Policy" content="{policy(inline_scripts(linked))}">'
    return linked.replace(_FIRST_META, f"{_FIRST_META}\n{meta}")


def without_comments(styles: str) -> str:
    """A style sheet as browsers read it: comments and indentation are a fifth of its weight on the way to a phone."""
    return _INDENT.sub("\n", _COMMENT.sub("", styles))


def slim(html: str) -> str:
    """Without shapes that nothing here refers to, the theme's empty holders, and the indentation of templates."""
    html = html.replace('<body dir="ltr"', "<body")
    for holder in _THEME_HOLDERS:
        html = holder.sub("", html)
    named = set(_NAMED.findall(html))
    used = _SYMBOL.sub(lambda found: found[0] if found[1] in named else "", html)
    parts = _KEPT_AS_IT_IS.split(used)
    # in threes: text, what is kept, the name of its tag
    return "".join(
        part if at % 3 == 1 else _without_indentation(part) for at, part in enumerate(parts) if at % 3 != 2
    ).lstrip()


def _without_indentation(html: str) -> str:
    """No blank at either end of a line and no empty line; the blank before and after the whole stays."""
    first, *rest = html.split("\n")
    if not rest:
        return html
    *between, last = rest
    lines = (line.strip(" \t") for line in between)
    return "\n".join((first.rstrip(" \t"), *(line for line in lines if line), last.lstrip(" \t")))


def _refuse_unknown(html: str, known: Collection[str]) -> None:
    for found in _SCRIPT.finditer(html):
        if found[2].strip() and not _DATA_BLOCK.search(found[1]) and found[2] not in known:
            line = html.count("\n", 0, found.start()) + 1
            raise PolicyFault(
                f"line {line}: a script within the page that is not ours: {found[2].strip()[:60]}"
            )


def inline_scripts(html: str) -> tuple[str, ...]:
    """The scripts that run from within the page; data blocks do not run."""
    found = _SCRIPT.findall(html)
    return tuple(text for attributes, text in found if text.strip() and not _DATA_BLOCK.search(attributes))


def policy(scripts: Iterable[str]) -> str:
    """Everything from this site only; of inline scripts only these very ones."""
    allowed = sorted({f"'sha256-{_digest(script)}'" for script in scripts})
    return "; ".join(
        (
            "default-src 'none'",
            " ".join(("script-src", "'self'", *allowed)),
            "style-src 'self'",
            "img-src 'self'",
            "font-src 'self'",
            "connect-src 'self'",
            "base-uri 'none'",
            "form-action 'self'",
        )
    )


def refuse_inline(html: str) -> None:
    """No style attribute, style element, event handler or script address: named with its line if there is one."""
    if _looks_suspect(html.lower()):
        _Inspector().inspect(html)


def _looks_suspect(html: str) -> bool:
    """A fast first look, since reading every page tag by tag would take longer than building it."""
    if any(sign.search(html) for sign in _SUSPECTS):
        return True
    return any(html[found.start() - 1] in "\"'/ \t\n\r\f" for found in _MAYBE_HANDLER.finditer(html))


class _Inspector(HTMLParser):
    """Reads a page that looks suspect; text that only mentions `style=` is fine."""

    def inspect(self, html: str) -> None:
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "style":
            self._refuse("a style element")
        for name, value in attrs:
            if name == "style" or name.startswith("on"):
                self._refuse(f'{name}="{value}" in <{tag}>')
            if name in ("href", "src") and (value or "").strip().lower().startswith("javascript:"):
                self._refuse(f"a script address in <{tag}>")

    def _refuse(self, what: str) -> None:
        raise PolicyFault(f"line {self.getpos()[0]}: the content policy does not allow {what}")


def _digest(script: str) -> str:
    return b64encode(sha256(script.encode("utf-8")).digest()).decode("ascii")
