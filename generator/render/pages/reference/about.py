"""What the handbook works out and what not: the generated half of the page; its prose is written by hand."""

from generator.render.base.page import Page
from generator.render.pages.book import Book
from generator.render.say.rungs import NO_SOURCE, verdict_key


def about_page(_book: Book) -> Page:
    """Follows the hand-written prose at the same address."""
    return Page(
        path="about/",
        title="About this handbook",
        description="What this handbook works out, what it does not know, and how far to trust it.",
        template="handbook/about.html",
        context={"key": verdict_key(), "no_source": NO_SOURCE},
        search=(
            "about",
            "what is not covered",
            "how to use it",
            "how far to trust it",
            "verdict words",
            "disclaimer",
        ),
        kind="about",
        in_nav=True,
    )
