"""Our pages as the site builder sees them: files without a source, pages without Markdown."""

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page as BuilderPage

from generator.render.base.page import Asset, Page, Site
from generator.site.sitemap import sitemap


class GeneratedPage(BuilderPage):
    """A page whose HTML is printed when its frame is; Markdown would cost ten times the time."""

    def __init__(self, page: Page, file: File, config: MkDocsConfig) -> None:
        super().__init__(page.title, file, config)
        self.meta = {"title": page.title, "description": page.description}

    def read_source(self, config: MkDocsConfig) -> None:  # noqa: ARG002 - the builder's signature
        self.markdown = ""

    def render(self, config: MkDocsConfig, files: Files) -> None:  # noqa: ARG002 - the builder's signature
        self.content = ""


def path_of(file: File) -> str:
    """The address of a page as ours are written: the start page is the empty one."""
    return "" if file.url in (".", "./") else file.url


def place(site: Site, files: Files, config: MkDocsConfig) -> None:
    """Adds what the site is made of; a page at the address of a hand-written one only adds to that one."""
    written = {path_of(file) for file in files.documentation_pages()}
    for page in site.pages:
        if page.path not in written:
            _add_page(page, files, config)
    for asset in site.assets:
        _add_asset(asset, files, config)
    paths = [path_of(file) for file in files.documentation_pages()]
    _add_asset(Asset("sitemap.xml", sitemap(config.site_url or "", paths)), files, config)


def drop_theme_files(files: Files, config: MkDocsConfig) -> None:
    """Only the assets of our own overrides are published; the theme's scripts, styles and icons are not used, and
    drawings stand in the pages."""
    from_theme, ours = set(config.theme.dirs[1:]), config.theme.dirs[0]
    for file in list(files):
        inside = file.src_dir == ours and not file.src_uri.startswith("assets/")
        if file.src_dir in from_theme or inside:
            files.remove(file)


def _add_page(page: Page, files: Files, config: MkDocsConfig) -> None:
    source = f"{page.path}index.md"
    file = File.generated(config, source, content="", inclusion=InclusionLevel.NOT_IN_NAV)
    GeneratedPage(page, file, config)
    files.append(file)


def _add_asset(asset: Asset, files: Files, config: MkDocsConfig) -> None:
    files.append(File.generated(config, asset.path, content=asset.content))
