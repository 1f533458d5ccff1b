"""The templates of the shell: what is published of a theme stays what MkDocs publishes, and no code is mixed up."""

from pathlib import Path

import pytest
from bayleaf import folders
from bayleaf.mkdocs_shell.templates import Compiled, Loader
from jinja2 import DictLoader, Environment, FileSystemLoader
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files


@pytest.fixture
def config(tmp_path: Path) -> MkDocsConfig:
    """That of a manual with a folder of its own for the theme, in which dots stand everywhere."""
    for name in ("main.html", "a/b/c.css", "a/.b/c.css", ".a/b.css", "a/.b.css", "a.b/c.css", "icons/.x/y.svg"):
        path = tmp_path / "own" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("x", encoding="utf-8")
    (tmp_path / "docs").mkdir()
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: T\ntheme: {name: material, custom_dir: own}\nplugins: []\n", encoding="utf-8"
    )
    config = load_config(str(tmp_path / "mkdocs.yml"))
    config.theme.dirs.insert(1, str(folders.site_theme()))
    return config


def test_the_files_of_a_theme_are_those_that_mkdocs_takes(config: MkDocsConfig) -> None:
    """Also with dots in the names of folders and files, and the icons of the theme beside them."""
    env = config.theme.get_env()
    assert any("/.icons/" in f"/{name}" for name in env.list_templates())
    taken = []
    for loader in (env.loader, Loader(config.theme.dirs)):
        env.loader = loader
        files = Files([])
        files.add_files_from_theme(env, config)
        taken.append([(file.src_uri, file.abs_src_path, file.dest_uri) for file in files])
    assert taken[0] == taken[1]
    assert {"a/b/c.css", "a.b/c.css", "assets/search.js"} <= {uri for uri, *_ in taken[0]}


def test_what_no_dot_hides_is_listed_as_jinja_lists_it(config: MkDocsConfig) -> None:
    """In the same order, each once, wherever it lies."""
    listed = FileSystemLoader(config.theme.dirs).list_templates()
    hidden = {name for name in listed if any(part.startswith(".") for part in name.split("/")[:-1])}
    assert hidden
    assert [name for name in listed if name not in hidden] == Loader(config.theme.dirs).list_templates()


def _env(text: str, cache: Compiled, **filters: object) -> Environment:
    env = Environment(loader=DictLoader({"a.html": text}))
    env.bytecode_cache = cache
    env.filters.update(filters)
    return env


def _rendered(text: str, cache: Compiled, **filters: object) -> str:
    return _env(text, cache, **filters).get_template("a.html").render()


def test_a_template_is_compiled_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The second environment takes the code of the first."""
    cache = Compiled()
    assert "3" == _rendered("{{ 1 + 2 }}", cache)
    monkeypatch.setattr(Environment, "compile", None)
    assert "3" == _rendered("{{ 1 + 2 }}", cache)


def test_code_is_kept_by_its_text_and_by_what_is_worked_out_in_it() -> None:
    """A changed template, and a filter that another plugin brings, are not met by what was kept."""
    cache = Compiled()
    said = "{{ 'bay'|said }}"
    assert "BAY" == _rendered(said, cache, said=str.upper)
    assert "Bay" == _rendered(said, cache, said=str.title)
    assert "BAY" == _rendered(said, cache, said=str.upper)
    assert "BAY." == _rendered(said + ".", cache, said=str.upper)


def test_of_a_template_that_is_edited_only_the_last_text_is_kept() -> None:
    """So nothing grows while somebody edits it."""
    cache = Compiled()
    for text in ("one", "two", "three", "two"):
        assert text == _rendered(text, cache)

    assert 1 == len(cache._kept)
