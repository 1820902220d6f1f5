"""The list of addresses for search engines, without dates, so that the same data gives the same bytes."""

from collections.abc import Iterable
from xml.sax.saxutils import escape

_HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?>\n<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n'
)


def sitemap(site_url: str, paths: Iterable[str]) -> str:
    """Sorted; without a published address the paths count from the root of their host."""
    base = site_url.rstrip("/") + "/"
    lines = [f"<url><loc>{escape(base + path)}</loc></url>\n" for path in sorted(paths)]
    return f"{_HEAD}{''.join(lines)}</urlset>\n"
