"""The direct path: pages through the same events and templates, without a build around them.

`mkdocs build` runs Python-Markdown over every page and keeps them all; here a made page skips it, and one
page can be made without the others. A test holds the bytes of both paths together.
"""

import logging
from collections.abc import Callable, Iterator, Sequence, Set
from contextlib import contextmanager
from html import unescape
from pathlib import Path

from mkdocs.commands.build import _build_extra_template, _build_theme_template, _populate_page, get_context
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.structure.files import File, Files, get_files, set_exclusions
from mkdocs.structure.nav import Navigation, get_navigation
from mkdocs.structure.pages import Page as ShellPage
from mkdocs.structure.toc import get_toc

from ..diagnostics.finding import Finding
from ..pages.body import Page
from ..pages.tags import Tags
from ..site import folder
from ..site.facts import NO_FACTS, ManualFacts
from . import published, templates
from .plugin import BayleafPlugin
from .source import Loaded
from .stamps import Stamps, allowed

Progress = Callable[[int, int], None]


class ShellError(Exception):
    """The configuration, a plugin or a page of the manual does not allow a site to be made."""


class Shell:
    """What stands around every page of one manual, ready to have pages put into it."""

    def __init__(self, config: MkDocsConfig, plugin: BayleafPlugin, said: list[str]) -> None:
        self._config = config
        self._plugin = plugin
        #: What MkDocs and its plugins had to say, as "warning: …"; grows while pages are made.
        self.said = said
        self._filled: set[str] = set()
        self._env_done = False
        self._start()

    def _start(self) -> None:
        """The events before the first page, in the order of `mkdocs.commands.build`."""
        config = self._config
        config.plugins.on_startup(command="build", dirty=False)
        self._config = config = config.plugins.on_config(config)
        config.plugins.on_pre_build(config=config)
        files = get_files(config)
        self._env = config.theme.get_env()
        self._env.loader = templates.Loader(config.theme.dirs)
        files.add_files_from_theme(self._env, config)
        self._files: Files = config.plugins.on_files(files, config=config)
        set_exclusions(self._files, config)
        nav = get_navigation(self._files, config)
        self._nav: Navigation = config.plugins.on_nav(nav, config=config, files=self._files)
        self._documents: Sequence[File] = self._files.documentation_pages()
        self._listed = {page.file.src_uri for page in self._nav.pages}
        self._stamps = Stamps(self._render) if allowed(config) else None
        self._by_url = {file.dest_uri: file for file in self._documents}

    def renew(
        self,
        pages: Sequence[Page],
        free: Set[str] = frozenset(),
        facts: ManualFacts = NO_FACTS,
        tags: Tags | None = None,
    ) -> bool:
        """Put new pages in the place of those with the same addresses, and read the named free pages again.

        `free` are paths below `docs_dir`; free pages with tags are read again as well.
        False where that does not do, since what stands around pages changes too:
        then this shell is of no more use.
        """
        contents = self._plugin.contents
        made = {published.source_uri(page.url): page for page in pages}
        if made.keys() != contents.pages.keys() or not free <= {one.src_uri for one in self._documents} - made.keys():
            return False
        if published.picture_urls(made.values()) != published.picture_urls(contents.pages.values()):
            return False
        for uri, page in made.items():
            before = contents.pages[uri]
            if page.title != before.title:
                if uri in self._listed:
                    return False
                _page_of(self._by_url[page.url]).title = published.title_html(page)
        again = free | contents.tagged
        contents.renew(made, facts, tags)
        self._filled -= made.keys()
        return all(self._is_read_again(file) for file in self._documents if file.src_uri in again)

    def _is_read_again(self, file: File) -> bool:
        """Reads a free page; False where its title, which stands in the navigation of all pages, is another one."""
        title = file.page and file.page.title
        self._filled.discard(file.src_uri)
        with _heard(self.said):
            self._fill(file)
        return bool(title == _page_of(file).title)

    @property
    def site_dir(self) -> Path:
        """Where the configuration wants the site."""
        return Path(self._config.site_dir)

    @property
    def name(self) -> str:
        """The name of the manual."""
        return str(self._config.site_name)

    def title(self, url: str) -> str:
        """The title of a page, as plain text."""
        return unescape(str(_page_of(self._by_url[url]).title))

    @property
    def urls(self) -> tuple[str, ...]:
        """The addresses of all pages, free pages first."""
        return tuple(self._by_url)

    def page_html(self, url: str) -> str:
        """One whole page. Free pages are read first: the navigation shows their titles."""
        with _heard(self.said):
            for file in self._documents:
                if file.src_uri not in self._plugin.contents.pages:
                    self._fill(file)
            file = self._by_url[url]
            self._fill(file)
            self._set_up()
            return self._html(_page_of(file))

    def asset(self, url: str) -> bytes | None:
        """A file of the site that is no page, such as a style sheet; None where there is none."""
        file = self._files.get_file_from_path(url)
        if file is None or file.is_documentation_page() or not file.inclusion.is_included():
            return None
        return file.content_bytes

    def search_pieces(self) -> dict[str, str]:
        """The index of the search, by address; every page is made for it that was not made yet."""
        with _heard(self.said):
            for file in self._documents:
                self._fill(file)
        return self._plugin.contents.search_pieces()

    def write(self, out: Path, progress: Progress | None = None) -> int:
        """Write the whole site, and put it in the place of `out`; returns the number of pages.

        `progress` is told how many pages are done, and of how many. Raises
        `bayleaf.site.folder.SiteFolderError` where `out` is somebody's own folder.
        """
        building = folder.begin(out)
        home = self._config.site_dir
        try:
            with _heard(self.said):
                self._send_to(building)
                self._write(building, progress)
            folder.finish(building, out)
        except folder.SiteFolderError:
            raise
        except BaseException:
            folder.abandon(building)
            raise
        finally:
            self._config.site_dir = home
        return len(self._documents)

    def _write(self, building: Path, progress: Progress | None) -> None:
        config, total = self._config, len(self._documents)
        for file in self._documents:
            self._fill(file)
        self._set_up()
        self._files.copy_static_files()
        for template in config.theme.static_templates:
            _build_theme_template(template, self._env, self._files, config, self._nav)
        for template in config.extra_templates:
            _build_extra_template(template, self._files, config, self._nav)
        folders_made: set[Path] = set()
        for done, file in enumerate(self._documents, 1):
            html = self._html(_page_of(file))
            target = building / file.dest_uri
            if target.parent not in folders_made:
                target.parent.mkdir(parents=True, exist_ok=True)
                folders_made.add(target.parent)
            if html.strip():
                with open(target, "wb") as stream:
                    stream.write(html.encode("utf-8", errors="xmlcharrefreplace"))
            if progress is not None:
                progress(done, total)
        for file in self._documents:
            _page_of(file).validate_anchor_links(files=self._files, log_level=config.validation.links.anchors)
        config.plugins.on_post_build(config=config)

    def _send_to(self, building: Path) -> None:
        """Have every file go to the folder `building`."""
        self._config.site_dir = str(building)
        for file in self._files:
            file.dest_dir = str(building)
            vars(file).pop("abs_dest_path", None)

    def _set_up(self) -> None:
        if not self._env_done:
            self._env = self._config.plugins.on_env(self._env, config=self._config, files=self._files)
            self._env_done = True

    def _fill(self, file: File) -> None:
        """Content, title and contents of a page, once."""
        if file.src_uri in self._filled:
            return
        self._filled.add(file.src_uri)
        page = file.page or ShellPage(None, file, self._config)
        if file.src_uri in self._plugin.contents.pages:
            self._fill_made(page)
        else:
            _populate_page(page, self._config, self._files)

    def _fill_made(self, page: ShellPage) -> None:
        """As `_populate_page` of MkDocs, without Markdown where there is none to convert."""
        config, plugins = self._config, self._config.plugins
        config._current_page = page
        try:
            page = plugins.on_pre_page(page, config=config, files=self._files)
            page.read_source(config)
            page.markdown = plugins.on_page_markdown(page.markdown or "", page=page, config=config, files=self._files)
            if page.markdown:
                page.render(config, self._files)
            else:
                page.content, page.toc, page.links_to_anchors = "", get_toc([]), {}
            page.content = plugins.on_page_content(page.content or "", page=page, config=config, files=self._files)
        finally:
            config._current_page = None

    def _html(self, page: ShellPage) -> str:
        """A whole page: stamped where it is a made one that the navigation does not list."""
        unlisted = page.file.src_uri in self._plugin.contents.pages and page.file.src_uri not in self._listed
        return self._stamps.html(page) if self._stamps and unlisted else self._render(page)

    def _render(self, page: ShellPage) -> str:
        """As `_build_page` of MkDocs, without writing the file."""
        config, plugins = self._config, self._config.plugins
        config._current_page = page
        page.active = True
        try:
            context = get_context(self._nav, self._documents, config, page)
            template = self._env.get_template(page.meta.get("template", "main.html"))
            context = plugins.on_page_context(context, page=page, config=config, nav=self._nav)
            return plugins.on_post_page(template.render(context), page=page, config=config)
        finally:
            page.active = False
            config._current_page = None


def open_shell(
    config_file: Path,
    pages: Sequence[Page],
    findings: Sequence[Finding] = (),
    facts: ManualFacts = NO_FACTS,
    tags: Tags | None = None,
) -> Shell:
    """Read the configuration of a manual and prepare the shell for `pages`, of which `facts` are known.

    `tags` look up what the tags of free pages stand for.

    With errors among the `findings`, every page carries them at its top.
    """
    said: list[str] = []
    with _heard(said):
        config = load_config(str(config_file))
        plugin = next((each for each in config.plugins.values() if isinstance(each, BayleafPlugin)), None)
        if plugin is None:
            raise ShellError(f"{config_file} does not name the plugin: write `plugins: [bayleaf]` in it.")
        plugin.given = Loaded(pages, findings, facts, tags)
        return Shell(config, plugin, said)


def _page_of(file: File) -> ShellPage:
    page = file.page
    assert page is not None, file.src_uri  # made by get_navigation for every documentation page
    return page


class _Listener(logging.Handler):
    """Keeps what is said from warnings upward."""

    def __init__(self, said: list[str]) -> None:
        super().__init__(logging.WARNING)
        self._said = said

    def emit(self, record: logging.LogRecord) -> None:
        self._said.append(f"{record.levelname.lower()}: {record.getMessage()}")


@contextmanager
def _heard(said: list[str]) -> Iterator[None]:
    """Keep what MkDocs logs, instead of having it printed, and turn its exceptions into ours."""
    logger, listener = logging.getLogger("mkdocs"), _Listener(said)
    logger.addHandler(listener)
    before = len(said)
    try:
        yield
    except MkDocsException as error:
        raise ShellError("\n".join([*said[before:], str(error)])) from error
    finally:
        logger.removeHandler(listener)
