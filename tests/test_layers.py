"""The layers import one way: each only itself and what stands below it."""

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path

import bayleaf

PACKAGE = Path(bayleaf.__file__).parent

#: From the top down. A module belongs to the layer whose name its path begins with.
LAYERS = (
    ("__main__",),
    ("commands",),
    ("mkdocs_shell",),
    ("site",),
    ("pages",),
    ("manual",),
    ("manual_files",),
    ("rules",),
    ("safety",),
    ("graph",),
    ("records",),
    ("loading",),
    ("calculations",),
    ("model",),
    ("quantities",),
    ("diagnostics",),
    ("folders", "__init__"),
)
#: Only these may import MkDocs or its theme.
MKDOCS_ONLY_IN = "mkdocs_shell"


def height_of(module: str) -> int:
    """The place of a layer, counted from the top."""
    first = module.split(".")[0]
    return next(height for height, names in enumerate(LAYERS) if first in names)


def imports_of(module: str, source: str) -> Iterator[tuple[int, str]]:
    """What a module imports, with the line: modules of the package without its name, others with `://` before."""
    parts = module.split(".")
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            for name in node.names:
                yield node.lineno, _inside(name.name)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.lineno, _inside(node.module or "")
        elif isinstance(node, ast.ImportFrom):
            base = parts[: len(parts) - node.level]
            target = ".".join([*base, *(node.module or "").split(".")]).strip(".")
            for name in node.names:
                yield node.lineno, target or name.name


def _inside(name: str) -> str:
    return name.removeprefix("bayleaf.") if name.startswith("bayleaf.") else f"://{name}"


def violations(sources: Mapping[str, str]) -> list[str]:
    """Every import that goes up, and every import of MkDocs where it does not belong."""
    found = []
    for module, source in sources.items():
        for line, target in imports_of(module, source):
            if target.startswith("://"):
                root = target.removeprefix("://").split(".")[0]
                if root in ("mkdocs", "material") and module.split(".")[0] != MKDOCS_ONLY_IN:
                    found.append(f"{module}:{line} imports {root}")
            elif target != "__version__" and height_of(target) < height_of(module):
                found.append(f"{module}:{line} imports {target}")
    return found


def sources_of(folder: Path) -> dict[str, str]:
    """The modules of the package by their dotted names; the module of a package is `name.__init__`."""
    return {
        ".".join(path.relative_to(folder).with_suffix("").parts): path.read_text(encoding="utf-8")
        for path in folder.rglob("*.py")
    }


def test_imports_go_down_only() -> None:
    """No layer knows what stands above it, and one package alone knows MkDocs."""
    assert violations(sources_of(PACKAGE)) == []


def test_a_planted_import_upwards_is_seen() -> None:
    """The test can fail: an import of the rules from the loading layer is told with file and line."""
    planted = {"loading.tree": "import re\nfrom ..rules.case import Case\n", "pages.all": "import mkdocs.config\n"}

    assert violations(planted) == ["loading.tree:2 imports rules.case", "pages.all:1 imports mkdocs"]


def test_a_planted_import_in_a_function_is_seen() -> None:
    """An import is an import wherever it stands in a module."""
    planted = {"graph.build": "def f():\n    from ..manual import Manual\n    return Manual\n"}

    assert violations(planted) == ["graph.build:2 imports manual"]
