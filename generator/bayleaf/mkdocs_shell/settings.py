"""What is set in the configuration of a manual, whatever its `mkdocs.yml` says, and what only if it says nothing."""

import posixpath
from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig

from .. import folders
from . import source

_SCRIPTS = (
    *("assets/search_words.js", "assets/search.js", "assets/search_dialog.js", "assets/shell.js", "assets/pages.js"),
    "assets/offline.js",
)
_FAVICON = "assets/bayleaf.svg"
_THEME_FAVICON = "assets/images/favicon.png"

#: Features of the theme that do harm here: a bubble that covers a limit, pages that are fetched by
#: script (impossible from a folder), and links to the pages before and after, which have no order.
_HARMFUL = ("navigation.top", "navigation.instant", "navigation.footer", "search.")

#: Features that change nothing on a made page.
_FOR_FREE_PAGES = (*_HARMFUL, "content.")

#: Our two schemes, between which a button of ours stands; a manual that sets a palette has the theme's button.
_PALETTE = {"scheme": "default", "primary": "custom", "accent": "custom"}


def manual_folder(config: MkDocsConfig) -> Path:
    """The folder of the manual: that of `mkdocs.yml`."""
    return Path(config.config_file_path).resolve().parent


def apply(config: MkDocsConfig) -> None:
    """Bring a configuration into the form that pages rely on."""
    config.use_directory_urls = False  # addresses that work from a folder
    _dress(config)
    _quieten(config)
    for name in source.ALSO_WATCHED:
        path = str(manual_folder(config) / name)
        if Path(path).exists() and path not in config.watch:
            config.watch.append(path)


def _dress(config: MkDocsConfig) -> None:
    """Our templates, scripts, colours and mark; a user's own come after them and win.

    Our style sheets stand in `main.html`, before those of a user: which of them a page needs depends on the page.
    """
    theme = config.theme
    ours = folders.site_theme()
    theme["bayleaf_frame"] = not _asks_for_the_script_of_the_theme(config)
    if str(ours) not in theme.dirs:
        theme.dirs.insert(1 if theme.custom_dir else 0, str(ours))
    theme["font"] = False  # or the theme asks another host for its letters
    if not theme.get("palette"):
        theme["palette"] = dict(_PALETTE)
        theme["bayleaf_colours"] = True
    if theme.get("favicon") in (None, _THEME_FAVICON):
        theme["favicon"] = _FAVICON
    theme["icon"] = theme.get("icon") or {}
    theme["features"] = [feature for feature in theme.get("features") or [] if not feature.startswith(_HARMFUL)]
    _put_first(config.extra_javascript, _SCRIPTS, ours)


def _asks_for_the_script_of_the_theme(config: MkDocsConfig) -> bool:
    """Whether a manual brings what the theme's script carries out, or what may rest on it: every page loads it then."""
    theme = config.theme
    features = [feature for feature in theme.get("features") or [] if not feature.startswith(_FOR_FREE_PAGES)]
    foreign = [path for path in config.extra_javascript if str(path) not in _SCRIPTS]
    return bool(features or foreign or theme.custom_dir or theme.get("palette") or config.extra.get("version"))


def _put_first(paths: list[Any], names: tuple[str, ...], theme: Path) -> None:
    there = [name for name in names if theme.joinpath(*name.split(posixpath.sep)).is_file()]
    paths[:] = [*there, *(path for path in paths if str(path) not in there)]


def _quieten(config: MkDocsConfig) -> None:
    """No second search, and nothing that reports to another host."""
    for name in ("search", "material/search"):
        plugin = config.plugins.get(name)
        if plugin is not None and "enabled" in plugin.config:
            plugin.config["enabled"] = False
    config.extra.pop("analytics", None)
    config.extra.pop("consent", None)
