"""Where the folders lie that are no Python: `schema` and `site_theme`.

In an installed package they lie inside it; in a checkout they stand at its top, where somebody who
writes a schema or a template looks for them first.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent
_CHECKOUT = _PACKAGE.parent.parent


class FolderMissing(Exception):
    """A folder that belongs to the program is in neither of its two places."""


def schema() -> Path:
    """The folder with the JSON schemas."""
    return find("schema")


def site_theme() -> Path:
    """The folder with the templates, style sheets and scripts of the site."""
    return find("site_theme")


def starter() -> Path:
    """The folder with the files of a new manual."""
    return find("starter")


def find(name: str, package: Path = _PACKAGE, checkout: Path = _CHECKOUT) -> Path:
    """The folder `name`, inside the package or else in the checkout around it.

    A folder beside the package counts only if `pyproject.toml` is there too: in an installed program the
    same place is the folder of all packages, where any other package may have put one of that name.
    """
    inside = package / name
    if inside.is_dir():
        return inside
    beside = checkout / name
    if beside.is_dir() and (checkout / "pyproject.toml").is_file():
        return beside
    raise FolderMissing(
        f"The folder {name} is missing. It should be in {inside} (installed) or in {beside} (a checkout, "
        "with pyproject.toml beside it). Install the package anew."
    )
