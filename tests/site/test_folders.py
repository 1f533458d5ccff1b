"""Where the folders lie that are no Python."""

from pathlib import Path

import pytest
from bayleaf import folders


def _layout(tmp_path: Path, *made: str) -> tuple[Path, Path]:
    for name in made:
        path = tmp_path / name
        if path.suffix:
            path.write_text("", encoding="utf-8")
        else:
            path.mkdir(parents=True)
    package = tmp_path / "generator/bayleaf"
    package.mkdir(parents=True, exist_ok=True)
    return package, tmp_path


def test_the_folder_in_the_package_goes_first(tmp_path):
    """An installed program uses what it was built with, whatever lies around it."""
    package, checkout = _layout(tmp_path, "schema", "pyproject.toml", "generator/bayleaf/schema")

    assert package / "schema" == folders.find("schema", package, checkout)


def test_a_checkout_is_known_by_its_project_file(tmp_path):
    """Beside `pyproject.toml` the folder of the checkout counts."""
    package, checkout = _layout(tmp_path, "schema", "pyproject.toml")

    assert tmp_path / "schema" == folders.find("schema", package, checkout)


def test_a_folder_of_that_name_elsewhere_is_not_taken_and_both_places_are_named(tmp_path):
    """Without `pyproject.toml` a folder `schema` two levels up is another package's."""
    package, checkout = _layout(tmp_path, "schema")

    with pytest.raises(folders.FolderMissing) as caught:
        folders.find("schema", package, checkout)

    assert str(package / "schema") in str(caught.value)
    assert str(tmp_path / "schema") in str(caught.value)


def test_the_theme_and_the_schemas_are_there():
    """Both folders are found from where the tests run."""
    assert (folders.site_theme() / "main.html").is_file()
    assert folders.schema().name == "schema"
