"""The plugin `bayleaf`: with it, `mkdocs build` and `mkdocs serve` make a site of a manual."""

import logging
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority, get_plugin_logger
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page as ShellPage
from mkdocs.utils import CountHandler

from ..diagnostics.finding import Finding
from ..pages.body import Page
from ..pages.tags import Tags
from ..site import folder, offline
from ..site.facts import NO_FACTS, ManualFacts
from . import published, report, settings, source, templates
from .contents import Contents

log = get_plugin_logger("bayleaf")

_FIRST, _LAST = 100, -100


class BayleafPlugin(BasePlugin):
    """Turns the procedures below `docs_dir` into pages.

    It has no `on_startup`: MkDocs keeps plugins that have one from run to run, and with them the pages
    of the run before.
    """

    def __init__(self) -> None:
        #: Pages, findings and facts that the direct path brings along; it also looks after the folder itself.
        self.given: source.Loaded | None = None
        self.contents = Contents({})
        self._pages: Sequence[Page] = ()
        self._findings: Sequence[Finding] = ()
        self._facts: ManualFacts = NO_FACTS
        self._tags: Tags | None = None
        self._trouble: list[str] = []
        self._serving = False
        self._site: Path | None = None
        self._building: Path | None = None

    @event_priority(_FIRST)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Set what pages rely on, and have the site built beside the old one."""
        if config.theme.name != "material":
            raise PluginError("A manual needs `theme: material` in mkdocs.yml: its pages are laid out for it.")
        settings.apply(config)
        self._serving = _is_served(config)
        self._trouble = []
        if self.given is None and not self._serving:
            self._site = Path(config.site_dir)
            try:
                self._building = folder.begin(self._site)
            except folder.SiteFolderError as error:
                raise PluginError(str(error)) from error
            config.site_dir = str(self._building)
        return config

    @event_priority(_FIRST)
    def on_pre_build(self, config: MkDocsConfig) -> None:
        """Read the manual. Errors in it end `mkdocs build`; `mkdocs serve` shows them."""
        self._pages, self._findings, self._facts, self._tags = self.given or self._load(settings.manual_folder(config))
        found = report.errors(self._findings)
        if self.given is None:
            others = [finding for finding in self._findings if finding.severity != "error"]
            if others:
                log.info("%s in the manual\n%s", report.counts(others), report.text(others))
            if found and not self._serving:
                raise PluginError(f"{report.counts(found)} in the manual:\n\n{report.text(found)}")
            if found:
                log.error("%s in the manual\n%s", report.counts(found), report.text(found))

    @event_priority(_LAST)
    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Leave out sources and photos, add the pages, and list in the navigation what belongs there."""
        published.leave_out(files, config)
        pages, clashes = published.add(files, self._pages, config)
        if clashes and not self._serving:
            raise PluginError("\n".join(clashes))
        for clash in clashes:
            log.error(clash)
        self._trouble += clashes
        if config.nav is None:
            config.nav = published.navigation(files, pages)
        banner = report.banner(report.errors(self._findings), self._trouble)
        self.contents = Contents(pages, banner, self._serving, self._facts, config.site_url, self._tags)
        return files

    @event_priority(_FIRST)
    def on_nav(self, nav: Navigation, config: MkDocsConfig, files: Files) -> Navigation:
        """Give the made pages their titles before anybody asks, and all pages a day that is not that of the build."""
        if self._facts.newest is not None:
            for document in files.documentation_pages():
                if document.page is not None:
                    document.page.update_date = self._facts.newest.isoformat()
        for uri in self.contents.pages:
            file = files.get_file_from_path(uri)
            if file is not None and file.page is not None:
                self.contents.introduce(file.page)
        return nav

    def on_env(self, env: Environment, **_: Any) -> Environment:
        """Have no template compiled twice, though `mkdocs serve` begins anew after every save."""
        env.bytecode_cache = templates.COMPILED
        return env

    @event_priority(_FIRST)
    def on_page_markdown(self, markdown: str, page: ShellPage, **_: Any) -> str:
        """Let free pages link to made pages by the names of files and by addresses."""
        return self.contents.linked(page, markdown)

    @event_priority(_FIRST)
    def _fill(self, html: str, page: ShellPage, **_: Any) -> str:
        return self.contents.fill(page, html)

    @event_priority(_LAST)
    def _note(self, html: str, page: ShellPage, **_: Any) -> None:
        self.contents.note(page, html)

    on_page_content = CombinedEvent(_fill, _note)

    @event_priority(_LAST)
    def on_post_build(self, config: MkDocsConfig) -> None:
        """Write the index of the search and what is read offline, and put the site in the place of the old one."""
        site = Path(config.site_dir)
        folder.write_pieces(site, self.contents.search_pieces())
        if self._serving:
            folder.write_pieces(site, {offline.WORKER: offline.RETIRED})
        else:
            offline.write(site, config.site_name, self._facts.newest)
        if self._building is None or self._site is None:
            return
        if config.strict and _warned():
            return  # MkDocs is about to fail: the last good site stays
        try:
            folder.finish(self._building, self._site)
        except folder.SiteFolderError as error:
            self._building = None
            raise PluginError(str(error)) from error
        self._building = None
        config.site_dir = str(self._site)  # where `mkdocs gh-deploy` looks for it
        log.info("The site is in %s", self._site)

    def on_build_error(self, **_: Any) -> None:
        """Throw away what was begun."""
        if self._building is not None:
            folder.abandon(self._building)
            self._building = None

    def _load(self, manual: Path) -> source.Loaded:
        try:
            return source.load(manual)
        except Exception as error:
            if not self._serving:
                raise
            log.exception("The manual could not be read")
            self._trouble.append(f"The manual could not be read: {type(error).__name__}: {error}")
            return source.Loaded((), (), NO_FACTS)


def _is_served(config: MkDocsConfig) -> bool:
    """Whether `mkdocs serve` runs: it builds into a folder for temporary files, which it names itself."""
    site = Path(config.site_dir)
    return site.name.startswith("mkdocs_") and site.parent.resolve() == Path(tempfile.gettempdir()).resolve()


def _warned() -> bool:
    handlers = logging.getLogger("mkdocs").handlers
    return any(handler.get_counts() for handler in handlers if isinstance(handler, CountHandler))
