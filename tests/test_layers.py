"""The layers: a module imports only from its own layer and from those below it."""

import ast
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

import bayleaf
import pytest

PACKAGE = Path(bayleaf.__file__).parent

#: From the top down. One line is one layer: a package, or modules that stand together.
LAYERS = (
    ("__main__",),
    ("commands",),
    ("mkdocs_shell",),
    ("site",),
    ("pages",),
    ("drafts",),
    ("starting",),
    ("editors",),
    ("manual", "manual_files", "manual_inspection", "manual_mending", "manual_profiles", "manual_writing"),
    ("rules",),
    ("records",),
    ("limits",),
    ("safety",),
    ("graph",),
    ("loading",),
    ("calculations",),
    ("model",),
    ("quantities",),
    ("pictures",),
    ("diagnostics",),
    ("__init__", "folders", "file_stamp"),
)
HEIGHT = {name: -number for number, names in enumerate(LAYERS) for name in names}

#: The packages of others that only some layers may use: what is behind one layer can be replaced there.
ONLY_IN: Mapping[str, tuple[str, ...]] = {
    "mkdocs": ("mkdocs_shell",),
    "material": ("mkdocs_shell",),
    "click": ("commands",),
    "yaml": ("loading",),
    "jsonschema_rs": ("loading",),
    "markdown": ("pages",),
    "jinja2": ("pages", "mkdocs_shell"),
    "pscript": ("pages",),
    "plotext": ("pages",),
    "watchdog": ("site",),
    "PIL": ("pictures",),
    "markupsafe": ("pages", "mkdocs_shell"),
}

_IN_TEXT = re.compile(r"bayleaf\.([a-z_]+)")


def violations(sources: Mapping[str, str]) -> list[str]:
    """What breaks the layers, in modules given by their path within the package and their text."""
    found = []
    for path, text in sources.items():
        own = path.split("/")[0].removesuffix(".py")
        for line, imported in _imports(path, ast.parse(text)):
            package, _, rest = imported.partition(".")
            if package != "bayleaf":
                if package in ONLY_IN and own not in ONLY_IN[package]:
                    found.append(f"{path}:{line}: only {' and '.join(ONLY_IN[package])} may import {package}")
                continue
            layer = rest.partition(".")[0] or "__init__"
            if own not in HEIGHT or layer not in HEIGHT:
                found.append(f"{path}:{line}: {own if own not in HEIGHT else layer} is in no layer")
            elif HEIGHT[layer] > HEIGHT[own]:
                found.append(f"{path}:{line}: {own} imports {layer}, which stands above it")
    return found


def _imports(path: str, tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Every import anywhere in a module, by its absolute name; names of modules in texts count too."""
    here = ("bayleaf", *Path(path).parts[:-1])
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(here[: len(here) - node.level + 1]) if node.level else ""
            module = ".".join(filter(None, (base, node.module)))
            if module != "bayleaf":
                yield node.lineno, module
            else:  # `from .. import folders` names a module, `from .. import __version__` does not
                yield from ((node.lineno, f"bayleaf.{alias.name}" if _is_module(alias.name) else "bayleaf")
                            for alias in node.names)  # fmt: skip
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and (named := _IN_TEXT.match(node.value)):
            yield node.lineno, f"bayleaf.{named[1]}"


def _is_module(name: str) -> bool:
    return name in HEIGHT or (PACKAGE / name).is_dir() or (PACKAGE / f"{name}.py").is_file()


def package() -> dict[str, str]:
    """The modules of the package."""
    return {path.relative_to(PACKAGE).as_posix(): path.read_text("utf-8") for path in sorted(PACKAGE.rglob("*.py"))}


def test_imports_run_downward() -> None:
    """Data flows one way, and so do the imports."""
    sources = package()
    assert len(sources) > 100
    assert [] == violations(sources)


def test_every_module_is_in_a_layer() -> None:
    """A new package or module at the top finds its place in the list above first."""
    assert set() == {path.split("/")[0].removesuffix(".py") for path in package()} - set(HEIGHT)


@pytest.mark.parametrize(
    ("path", "text", "expected"),
    [
        ("safety/walk.py", "from ..rules.case import Case", "safety imports rules, which stands above it"),
        ("safety/walk.py", "from .. import rules", "safety imports rules, which stands above it"),
        ("safety/walk.py", "import bayleaf.rules.case", "safety imports rules, which stands above it"),
        ("safety/walk.py", "from bayleaf.rules import case", "safety imports rules, which stands above it"),
        ("diagnostics/place.py", "from ..model import actions", "diagnostics imports model, which stands above it"),
        ("model/common.py", "from ..loading.text import decode", "model imports loading, which stands above it"),
        ("rules/flow/x.py", "from ...manual import Manual", "rules imports manual, which stands above it"),
        ("manual.py", "from .pages.body import Page", "manual imports pages, which stands above it"),
        ("manual_files.py", "from .site import folder", "manual_files imports site, which stands above it"),
        ("folders.py", "from .diagnostics.place import Place", "folders imports diagnostics, which stands above it"),
        ("pages/home.py", "def f():\n    from ..site import folder", "pages imports site, which stands above it"),
        ("pages/all.py", "import mkdocs.plugins", "only mkdocs_shell may import mkdocs"),
        ("commands/serve.py", "from mkdocs.commands import serve", "only mkdocs_shell may import mkdocs"),
        ("site/folder.py", "from material.extensions import emoji", "only mkdocs_shell may import material"),
        ("manual.py", "import yaml", "only loading may import yaml"),
        ("site/x.py", "import_module('bayleaf.commands.check')", "site imports commands, which stands above it"),
        ("helpers.py", "from .model import actions", "helpers is in no layer"),
        ("pages/x.py", "from ..helpers import x", "helpers is in no layer"),
    ],
)  # fmt: skip
def test_a_violation_is_found(path: str, text: str, expected: str) -> None:
    """The test above is not blind: each way to import upward is seen, and where."""
    line = text.count("\n") + 1
    assert [f"{path}:{line}: {expected}"] == violations({path: text})


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("rules/flow/x.py", "from ...safety.walk import walk"),
        ("rules/flow/x.py", "from .._memo import memo"),
        ("commands/check.py", "from .. import __version__"),
        ("mkdocs_shell/settings.py", "from .. import folders\nimport mkdocs"),
        ("manual.py", "from .manual_files import find_files"),
        ("diagnostics/x.py", "import json\nfrom pathlib import Path"),
    ],
)
def test_what_is_allowed_is_left_alone(path: str, text: str) -> None:
    """Own layer, lower layers, Python's own modules."""
    assert [] == violations({path: text})
