"""The strict template environments: one for the bodies of pages, one for hand-written Markdown."""

import re
from collections.abc import Callable, Hashable, Mapping

from jinja2 import BaseLoader, Environment, StrictUndefined, pass_context
from jinja2.runtime import Context, Macro
from markupsafe import Markup, escape

from generator.render.base.page import Page, relative_address
from generator.render.base.routes import row_anchor

# everything that Markdown or HTML could take for markup; letters, digits and plain punctuation stay;
# a point or dash before a space could start a list
_MARKUP_SIGN = re.compile(r"[^\w ,;?%/'°·±×−–€£$.-]|[.-](?= |$)|_")
# a label, or a figure with its unit, and the sign that ends it: in escaped text
_ONE_WORD = re.compile(
    r"(?<![\w&#-])\(?(?!(?:no-go|get-home|last-resort)\b)(?:[a-z0-9]+(?:-[a-z0-9]+)+|\d[\d.]* (?:%|mm|g|km/h|km|m|kB)(?![\w/]))(?:\)?[,;.:]|\))?"
)


def environment(loader: BaseLoader) -> Environment:
    """Every value is escaped; a name that is not there, or None, is an error and never an empty place."""
    made = Environment(
        loader=loader,
        undefined=StrictUndefined,
        autoescape=True,
        finalize=_printable,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["href"] = _href
    made.globals["once"] = _once()
    made.globals["row_anchor"] = row_anchor
    made.filters["kept"] = _kept
    return made


def _once() -> Callable[[Macro, Hashable], Markup]:
    """For templates: a macro's HTML of a value, made once for all pages; it must not depend on the page."""
    made: dict[tuple[str, Hashable], Markup] = {}

    def once(macro: Macro, value: Hashable) -> Markup:
        key = (macro.name, value)
        if key not in made:
            made[key] = Markup(macro(value))
        return made[key]

    return once


def page_body(env: Environment, page: Page) -> str:
    """The HTML of a page inside its frame."""
    return env.get_template(page.template).render({**page.values(), "page": page})


def prose(env: Environment, text: str, path: str, values: Mapping[str, object]) -> str:
    """Hand-written Markdown with its values filled in, each shown as typed and never taken for markup."""
    strict = env.overlay(
        finalize=_as_typed,
        comment_start_string="{##",  # `{#` starts the id of a heading in Markdown
        comment_end_string="##}",
    )
    return strict.from_string(text).render({**values, "page": {"path": path}})


@pass_context
def _href(context: Context, target: str) -> str:
    page = context["page"]
    return relative_address(page["path"] if isinstance(page, dict) else page.path, target)


def _kept(text: str) -> Markup:
    """What is written on a bag does not break at its hyphens, nor a figure from its unit."""
    return Markup(_ONE_WORD.sub(r'<span class="kept">\g<0></span>', str(escape(text))))


def _printable(value: object) -> object:
    if value is None:
        raise TypeError("a template printed None: give it a text, or ask first")
    return value


def _as_typed(value: object) -> object:
    if isinstance(_printable(value), Markup):
        return value
    flat = " ".join(str(value).split())
    return Markup(_MARKUP_SIGN.sub(lambda sign: f"&#{ord(sign.group())};", flat))
