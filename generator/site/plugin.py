"""The one place that knows the site builder: places our pages and files in it, and finishes what it wrote."""

import os
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, cast

from jinja2 import Environment, FileSystemLoader
from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page as BuilderPage
from mkdocs.structure.toc import TableOfContents
from mkdocs.utils.templates import TemplateContext

from generator.render.base.page import Page, Site
from generator.render.environment import environment, page_body, prose
from generator.site.collector import sweep
from generator.site.contents import sections_of
from generator.site.frame import Frame, FrameMaker, own_scripts, shapes_of_verdicts
from generator.site.generated import drop_theme_files, path_of, place
from generator.site.marker import theirs_in
from generator.site.menu import menu_of
from generator.site.publish import finish_folder

# pages
SWEPT_TOGETHER = 1000


class HandbookOptions(Config):  # type: ignore[no-untyped-call] # the builder's class hook has no types
    """The options of the plugin in mkdocs.yml."""

    club = config_options.Type(str, default="data/demo")
    menu = config_options.Type(dict, default={})


class HandbookPlugin(BasePlugin[HandbookOptions]):  # type: ignore[no-untyped-call]
    """One build of one site; `content` and `progress` are set by `handbook build`."""

    content: Callable[[], Site] | None = None
    progress: Callable[[int, int], None] | None = None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        self.club = Path(config.config_file_path).parent / self.config.club
        self.site = self._content()
        self.pages: dict[str, Page] = {page.path: page for page in self.site.pages}
        self.env = environment(FileSystemLoader(config.theme.dirs[0]))
        config.site_name = self.site.facts.name
        config.theme.static_templates.discard("sitemap.xml")  # the builder's own dates every page
        os.environ["SOURCE_DATE_EPOCH"] = str(_seconds(self.site.facts.as_of))
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """The builder clears its target; `handbook build` hands it an empty one and carries over what is there."""
        folder = Path(config.site_dir)
        theirs = theirs_in(folder) if folder.is_dir() else []
        if theirs:
            raise PluginError(
                f"{folder} holds {theirs[0]}, which no build made: run handbook build, or clear it"
            )

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        drop_theme_files(files, config)
        place(self.site, files, config)
        return files

    def on_page_markdown(self, markdown: str, *, page: BuilderPage, **_rest: Any) -> str:
        return prose(self.env, markdown, page.url, self.site.values) if markdown else markdown

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        pages = files.documentation_pages()
        titles = {
            path_of(file): str(file.page.title) for file in pages if file.page and self._in_menu(file.page)
        }
        shapes = shapes_of_verdicts(self.env)
        menu = menu_of(self.config.menu, titles)
        paths = frozenset(path_of(file) for file in pages)
        self.frames = FrameMaker(self.site.facts, menu, shapes, config.site_url or "", paths)
        self.scripts = own_scripts(env, self.frames)
        self.done, self.total = 0, len(pages)
        return env

    def on_page_context(
        self, context: TemplateContext, *, page: BuilderPage, **_rest: Any
    ) -> TemplateContext:
        ours = self.pages.get(page.url)
        page.toc = TableOfContents([])  # the theme makes a second skip link of it
        if ours:
            page.content = (page.content or "") + page_body(self.env, ours)
        description = page.meta.get("description") or (ours.description if ours else "")
        sections = sections_of(page.content or "")
        frame = self.frames.of_page(page.url, str(page.title), description, ours, sections)
        return _framed(context, frame)

    def on_template_context(self, context: TemplateContext, **_rest: Any) -> TemplateContext:
        return _framed(context, self.frames.of_error("Not here"))

    def on_post_page(self, output: str, *, page: BuilderPage, **_rest: Any) -> str:
        page.content = ""  # printed; the bodies of thousands of pages need not wait in memory
        self.done += 1
        if self.done % SWEPT_TOGETHER == 0:
            sweep()
        if self.progress:
            self.progress(self.done, self.total)
        return output

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        finish_folder(Path(config.site_dir), self.scripts)

    def _content(self) -> Site:
        if self.content:
            return self.content()
        from generator.site.content import ClubRefused, club_site

        try:
            return club_site(self.club)
        except ClubRefused as refused:
            raise PluginError(str(refused)) from refused

    def _in_menu(self, page: BuilderPage) -> bool:
        """A hand-written page is, unless what we add to it says otherwise."""
        ours = self.pages.get(page.url)
        return ours is None or ours.in_nav


def _framed(context: TemplateContext, frame: Frame) -> TemplateContext:
    cast(dict[str, object], context)["handbook"] = frame
    return context


def _seconds(as_of: str) -> int:
    return int(datetime.fromisoformat(as_of).replace(tzinfo=UTC).timestamp())
