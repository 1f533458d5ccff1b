"""The floors: the least work that could be called the same, done by the tools that everybody has. No cache in either.

Floor A composes the YAML files of a manual with PyYAML's C parser and throws the nodes away. Floor B has MkDocs
and Material build one plain Markdown page with the same text for each of these files.
"""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

_MKDOCS = """\
site_name: Plain pages
theme: {name: material, font: false}
plugins: [search]
nav: [index.md]
not_in_nav: "*"
"""


def compose_all(folder: Path) -> int:
    """Floor A."""
    files = sorted((folder / "procedures").rglob("*.yml"))
    for file in files:
        yaml.compose(file.read_bytes().decode("utf-8"), Loader=yaml.CSafeLoader)
    return len(files)


def write_plain_pages(manual: Path, target: Path) -> int:
    """Writes the input of floor B: every file of the manual as Markdown, as somebody would write it by hand."""
    shutil.rmtree(target, ignore_errors=True)
    docs = target / "docs"
    docs.mkdir(parents=True)
    (target / "mkdocs.yml").write_text(_MKDOCS, encoding="utf-8")
    (docs / "index.md").write_text("# Plain pages\n", encoding="utf-8")
    files = sorted((manual / "procedures").rglob("*.yml"))
    for file in files:
        data = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)
        page = (docs / file.relative_to(manual / "procedures")).with_suffix(".md")
        page.parent.mkdir(exist_ok=True)
        page.write_text("\n".join(_markdown(data)) + "\n", encoding="utf-8")
    return len(files)


def build_plain_pages(folder: Path) -> None:
    """Floor B."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    build(load_config(str(folder / "mkdocs.yml")))


def _markdown(data: dict[str, Any]) -> Iterator[str]:
    yield f"# {data.get('title') or data.get('name')}\n"
    for key, value in data.items():
        if isinstance(value, str):
            yield f"**{_word(key)}**: {_text(value)}\n"
        elif key == "steps":
            yield "## Steps\n"
            for number, step in enumerate(value, 1):
                (first, what), *rest = [(k, v) for k, v in step.items() if k != "id"]
                yield f"### {number}. {_word(first)}: {_text(what) if isinstance(what, str) else _flat(what)}\n"
                yield from _bullets(dict(rest), "")
                yield ""
        else:
            yield f"## {_word(key)}\n"
            yield from _bullets(value, "")
            yield ""


def _bullets(value: Any, indent: str) -> Iterator[str]:
    """Nested lists; what holds nothing but texts stands on one line."""
    pairs = value.items() if isinstance(value, dict) else ((None, item) for item in value)
    for key, item in pairs:
        label = f"**{_word(key)}**: " if key is not None else ""
        if isinstance(item, str):
            yield f"{indent}- {label}{_text(item)}"
        elif all(isinstance(one, str) for one in (item.values() if isinstance(item, dict) else item)):
            yield f"{indent}- {label}{_flat(item)}"
        else:
            yield f"{indent}- {label}"
            yield from _bullets(item, indent + "    ")


def _flat(value: Any) -> str:
    if isinstance(value, dict):
        return "; ".join(f"{_word(key)}: {_flat(item)}" for key, item in value.items())
    return _text(value) if isinstance(value, str) else ", ".join(map(_flat, value))


def _word(key: str) -> str:
    return key.replace("_", " ").replace("-", " ").capitalize()


def _text(value: str) -> str:
    return " ".join(value.split())
