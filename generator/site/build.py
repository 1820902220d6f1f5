"""Builds a handbook with the site builder and puts it in its place as a whole."""

import logging
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from types import MappingProxyType

from mkdocs.commands.build import build as run_builder
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException

from generator.render.base.page import Site
from generator.shipped import shipped_root
from generator.site.collector import set_aside
from generator.site.plugin import HandbookPlugin
from generator.site.swap import replacing

Progress = Callable[[int, int], None]
NO_SETTINGS: Mapping[str, str] = MappingProxyType({})


class BuildFailed(Exception):
    """The site builder refused: a fault of the handbook itself, not of the data."""


def build_site(
    site: Site, to: Path, progress: Progress | None = None, settings: Mapping[str, str] = NO_SETTINGS
) -> None:
    """Strict: any warning of the builder stops it.  `progress` is told pages done and pages in all; `settings` come
    before those of mkdocs.yml."""
    with replacing(to) as fresh, _builder_messages():
        try:
            config = load_config(str(builder_settings()), site_dir=str(fresh), strict=True, **settings)
            with _handed_over(config, site, progress), set_aside():
                run_builder(config)
        except MkDocsException as fault:
            raise BuildFailed(fault.format_message()) from fault


def builder_settings() -> Path:
    return shipped_root() / "mkdocs.yml"


@contextmanager
def _handed_over(config: MkDocsConfig, site: Site, progress: Progress | None) -> Iterator[None]:
    """The plugin is kept by the builder for the whole process, so what it was handed is taken back."""
    plugin = config.plugins["trail-handbook"]
    assert isinstance(plugin, HandbookPlugin)
    plugin.content, plugin.progress = (lambda: site), progress
    try:
        yield
    finally:
        plugin.content = plugin.progress = None


@contextmanager
def _builder_messages() -> Iterator[None]:
    """Its warnings go to stderr, as they come."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setLevel(logging.WARNING)
    logger = logging.getLogger("mkdocs")
    logger.addHandler(handler)
    try:
        yield
    finally:
        logger.removeHandler(handler)
